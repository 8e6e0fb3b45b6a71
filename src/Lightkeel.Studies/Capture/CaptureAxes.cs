using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Motion.Wells;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Capture;

/// <summary>The axes of a capture: those asked for, or those that show the held region of this craft.</summary>
internal static class CaptureAxes
{
    // The rectangle reaches so far beyond what is held along the axes.
    private const double Beyond = 1.3;
    private const int Halvings = 14;
    private const int Refinements = 5;
    private const double LargestTilt = 0.7;

    /// <summary>Refuses axes that make no basin.</summary>
    public static void RequireSound(CaptureInput input)
    {
        List<InputFault> faults = [];
        foreach ((string flag, DesignAxis? axis) in new[] { ("--x", input.X), ("--y", input.Y) })
        {
            if (axis is not null && StartField.Of(axis.Path) is null)
            {
                faults.Add(
                    new(
                        flag,
                        $"{axis.Path} is no number of the start",
                        "a basin is drawn over two of " + string.Join(", ", StartField.All.Select(f => f.Path))
                    )
                );
            }
        }
        if (input.X is { } x && input.Y is { } y && x.Path == y.Path)
        {
            faults.Add(new("--y", "both axes are of the same number", "give each axis a path of its own"));
        }
        if (faults.Count > 0)
        {
            throw new InputRefusedException(faults);
        }
    }

    /// <summary>Both axes.</summary>
    public static (DesignAxis X, DesignAxis Y) Of(CaptureInput input, CaptureRides rides, StudyContext context)
    {
        bool central = CentralLight.Of(input.Design.Model.Craft).HasPotential;
        string pathX = input.X?.Path ?? (input.Y?.Path == "start.offset.x" ? "start.velocity.x" : "start.offset.x");
        string other = central ? "start.velocity.x" : "start.tilt.y";
        string pathY = input.Y?.Path ?? (pathX == other ? "start.offset.x" : other);
        DesignAxis[] made = new DesignAxis[2];
        context.Progress.Report("size of the axes", 0, 2);
        for (int i = 0; i < 2; i++)
        {
            DesignAxis? asked = i == 0 ? input.X : input.Y;
            string path = i == 0 ? pathX : pathY;
            made[i] = asked ?? Sized(input, rides, path, central);
            context.Progress.Report("size of the axes", i + 1, 2);
        }
        return (made[0], made[1]);
    }

    private static DesignAxis Sized(CaptureInput input, CaptureRides rides, string path, bool central)
    {
        double half =
            Beyond * ((central ? FromWell(input, rides, path) : null) ?? FromRides(input, rides, StartField.Of(path)!));
        DesignAxis exact = DesignAxis.Even(input.Design.Document, path, -half, half, CaptureInput.UsualPoints);
        // Round in the unit that people read.
        double factor = CaptureWords.Shown(exact.Unit).Factor;
        half = CaptureRides.RoundUp(factor * half) / factor;
        return DesignAxis.Even(input.Design.Document, path, -half, half, CaptureInput.UsualPoints);
    }

    // Rim and escape speed of the well, where there is one.
    private static double? FromWell(CaptureInput input, CaptureRides rides, string path)
    {
        DesignModel model = input.Design.Model;
        CraftPose axial = CraftPose.OnAxis with
        {
            VelocityMetresPerSecond = new(0, 0, model.Design.Start.SpeedMetresPerSecond),
        };
        double radius = model.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        double reach = model.Beam.Profile.ExtentMetres + radius;
        LateralTrim trim = LateralTrim.Find(rides.Engine, new(radius, reach), axial);
        if (trim is not { Found: true, Pose: { } bottom })
        {
            return null;
        }
        LateralWell well = LateralWell.Measure(rides.Engine, model.Beam, new(bottom, reach, Rays: 16));
        if (well.RimMetres is not { } rim || well.DepthJoules is not { } depth || !(depth > 0))
        {
            return null;
        }
        return path switch
        {
            "start.offset.x" => rim + double.Hypot(bottom.OffsetXMetres, bottom.OffsetYMetres),
            "start.velocity.x" => Math.Sqrt(2 * depth / model.Craft.Mass.MassKilograms),
            _ => null,
        };
    }

    // The largest value along the axis that is held, all else undisturbed: halved down from the limit, then up again.
    private static double FromRides(CaptureInput input, CaptureRides rides, StartField field)
    {
        double most = field.Path switch
        {
            "start.offset.x" => rides.Model.Limits.LostAtMetres ?? input.Design.Model.Beam.Profile.ExtentMetres,
            "start.tilt.y" => rides.Model.Limits.TiltLimitRadians ?? LargestTilt,
            _ => SpeedOf(rides.Model),
        };
        RideStart calm = StartField
            .All.Where(f => f.IsDeviation)
            .Aggregate(rides.Model.Start, (start, f) => f.With(start, 0));
        bool Holds(double value) => rides.FateOf(field.With(calm, value)).IsHeld;
        double held = most;
        for (int i = 0; i < Halvings && !Holds(held); i++)
        {
            held *= 0.5;
        }
        if (!Holds(held))
        {
            return most / Beyond;
        }
        double lost = Math.Min(2 * held, most);
        for (int i = 0; i < Refinements; i++)
        {
            double middle = 0.5 * (held + lost);
            (held, lost) = Holds(middle) ? (middle, lost) : (held, middle);
        }
        return held;
    }

    // Lateral speed that a force of the size of the thrust gives over the size of the beam.
    private static double SpeedOf(RideModel ride) =>
        Math.Sqrt(
            2
                * (2 * ride.Setup.PowerWatts / Illumination.LightSpeed)
                * ride.Setup.FeatureLengthMetres
                / ride.Setup.Mass.MassKilograms
        );
}
