using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Motion.Basins;
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

    // Where computing ends before holding does, the rectangle stays within what can be computed, so that its edge tells of the craft.
    private const double Within = 0.75;
    private const double Shrink = 0.9;
    private const int Shrinkings = 8;
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
    public static (DesignAxis X, DesignAxis Y, string Text) Of(
        CaptureInput input,
        CaptureRides rides,
        StudyContext context
    )
    {
        bool central = CentralLight.Of(input.Design.Model.Craft).HasPotential;
        string pathX = input.X?.Path ?? (input.Y?.Path == "start.offset.x" ? "start.velocity.x" : "start.offset.x");
        string other = central ? "start.velocity.x" : "start.tilt.y";
        string pathY = input.Y?.Path ?? (pathX == other ? "start.offset.x" : other);
        DesignAxis[] made = new DesignAxis[2];
        bool[] chosen = [input.X is null, input.Y is null];
        bool cut = false;
        context.Progress.Report("size of the axes", 0, 2);
        for (int i = 0; i < 2; i++)
        {
            if ((i == 0 ? input.X : input.Y) is { } asked)
            {
                made[i] = asked;
            }
            else
            {
                string path = i == 0 ? pathX : pathY;
                (double half, bool ends) = HalfWidth(input, rides, path, central);
                made[i] = Rounded(input, path, half);
                cut |= ends;
            }
            context.Progress.Report("size of the axes", i + 1, 2);
        }
        if (cut)
        {
            Narrow(input, rides, made, chosen, context);
        }
        return (made[0], made[1], TextOf(chosen, central, cut));
    }

    private static string TextOf(bool[] chosen, bool central, bool cut) =>
        !chosen[0] && !chosen[1] ? "as asked for"
        : cut
            ? "cut to starts whose light can be computed: beyond them the craft is not known to be lost; give --x and --y for more"
        : central ? "sized by the well"
        : "sized by rides along the axes";

    private static (double Half, bool ComputingEnds) HalfWidth(
        CaptureInput input,
        CaptureRides rides,
        string path,
        bool central
    )
    {
        if (central && FromWell(input, rides, path) is { } well)
        {
            return (Beyond * well, false);
        }
        (double reach, bool ends) = FromRides(input, rides, StartField.Of(path)!);
        return ((ends ? Within : Beyond) * reach, ends);
    }

    // Both chosen axes shrink until rides from the corners of the rectangle can be computed.
    private static void Narrow(
        CaptureInput input,
        CaptureRides rides,
        DesignAxis[] made,
        bool[] chosen,
        StudyContext context
    )
    {
        (StartField x, StartField y) = (StartField.Of(made[0].Path)!, StartField.Of(made[1].Path)!);
        bool Unknown(double atX, double atY) =>
            rides.Fly(y.With(x.With(rides.Model.Start, atX), atY)).Ending == StartEnding.NotComputable;
        for (int i = 0; i < Shrinkings && !context.Cancellation.IsCancellationRequested; i++)
        {
            (double left, double right) = (made[0].Values[0], made[0].Values[^1]);
            (double low, double high) = (made[1].Values[0], made[1].Values[^1]);
            if (!(Unknown(right, high) || Unknown(left, high) || Unknown(right, low) || Unknown(left, low)))
            {
                return;
            }
            for (int k = 0; k < 2; k++)
            {
                made[k] = chosen[k] ? Rounded(input, made[k].Path, Shrink * made[k].Values[^1], down: true) : made[k];
            }
        }
    }

    // Round in the unit that people read.
    private static DesignAxis Rounded(CaptureInput input, string path, double half, bool down = false)
    {
        DesignAxis exact = DesignAxis.Even(input.Design.Document, path, -half, half, CaptureInput.UsualPoints);
        double factor = CaptureWords.Shown(exact.Unit).Factor;
        half = (down ? RoundDown(factor * half) : CaptureRides.RoundUp(factor * half)) / factor;
        return DesignAxis.Even(input.Design.Document, path, -half, half, CaptureInput.UsualPoints);
    }

    private static double RoundDown(double value)
    {
        double power = Math.Pow(10, Math.Floor(Math.Log10(value)) - 1);
        return Math.Floor(value / power * (1 + 1e-12)) * power;
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

    // The largest value along the axis that is held, all else undisturbed: halved down from the limit, then up again; and whether it
    // is computing that ends there, not holding.
    private static (double Reach, bool ComputingEnds) FromRides(
        CaptureInput input,
        CaptureRides rides,
        StartField field
    )
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
        bool ends = false;
        bool Holds(double value)
        {
            StartFate fate = rides.Fly(field.With(calm, value));
            ends = fate.IsHeld ? ends : fate.Ending == StartEnding.NotComputable;
            return fate.IsHeld;
        }
        double held = most;
        for (int i = 0; i < Halvings && !Holds(held); i++)
        {
            held *= 0.5;
        }
        if (!Holds(held))
        {
            return (most / Beyond, false);
        }
        double lost = Math.Min(2 * held, most);
        for (int i = 0; i < Refinements; i++)
        {
            double middle = 0.5 * (held + lost);
            (held, lost) = Holds(middle) ? (middle, lost) : (held, middle);
        }
        return (held, ends);
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
