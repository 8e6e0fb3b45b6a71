using System.Collections.Concurrent;
using Lightkeel.Numerics.Interpolation;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Motion.Basins;
using Lightkeel.Physics.Motion.Wells;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Capture;

/// <summary>What is proven of a capture, beside what its rides sample.</summary>
internal sealed class CaptureProof
{
    // The circle lies a little inside the measured rim: its potential is stationary there, so next to nothing is given away.
    private const double InsideRim = 1 - 1e-6;

    // Relative width of the bounds of the potential where starts lie, and where there are many places.
    private const double StartTolerance = 0.01;
    private const double ManyTolerance = 0.05;
    private const int ManyPlaces = 60;
    private readonly BallCertificate _certificate;
    private readonly CaptureGrid _grid;
    private readonly ParallelOptions _options;

    private readonly bool _isRound;

    private CaptureProof(BallCertificate certificate, CaptureGrid grid, bool isRound, StudyContext context) =>
        (_certificate, _grid, _isRound, _options) = (
            certificate,
            grid,
            isRound,
            new() { MaxDegreeOfParallelism = context.Threads, CancellationToken = context.Cancellation }
        );

    /// <summary>No proof.</summary>
    public static CaptureCertificate None(string why) =>
        new()
        {
            Applies = false,
            Text = "Nothing is proven; what is said of held starts is sampled by rides. " + why,
            Assumptions = [],
            ProvenReason = why,
            CircleReason = why,
            BarrierReason = why,
            BoostReason = why,
        };

    /// <summary>The proof where there is one.</summary>
    public static CaptureCertificate Of(CaptureInput input, CaptureRides rides, CaptureGrid grid, StudyContext context)
    {
        DesignModel model = input.Design.Model;
        if (!CentralLight.Of(model.Craft).HasPotential)
        {
            return None(
                "The force depends on the attitude and has no potential, so no energy bounds the motion; a quadratic Lyapunov function of the linear model would need damping, and a neutrally stable craft has none to speak of."
            );
        }
        if (grid.X.Path == "start.speed" || grid.Y.Path == "start.speed")
        {
            return None("The axes change the axial speed; the energy is bounded for one speed alone.");
        }
        RideModel ride = rides.Model;
        (BallCertificate? certificate, string? reason) = Circle(model, rides.Engine) is { } circle
            ? BallCertificate.For(
                ride.Setup,
                model.Craft,
                model.Beam,
                ride.Limits,
                circle,
                ride.Start.SpeedMetresPerSecond,
                context.Threads
            )
            : (null, "There is no well to be held in.");
        return certificate is null
            ? None(reason ?? "")
            : new CaptureProof(
                certificate,
                grid,
                model.Beam.Profile.IsAxisymmetric && certificate.CenterMetres is (0, 0),
                context
            ).Proven(context);
    }

    private static (double X, double Y, double Radius)? Circle(DesignModel model, IPressureEngine engine)
    {
        CraftPose axial = CraftPose.OnAxis with
        {
            VelocityMetresPerSecond = new(0, 0, model.Design.Start.SpeedMetresPerSecond),
        };
        double radius = model.Craft.Surfaces.Max(s => s.Shape.MaximumRadiusMetres);
        double reach = model.Beam.Profile.ExtentMetres + radius;
        LateralTrim trim = LateralTrim.Find(engine, new(radius, reach), axial);
        return
            trim is { Found: true, Pose: { } bottom }
            && LateralWell.Measure(engine, model.Beam, new(bottom, reach)).RimMetres is { } rim
            ? (bottom.OffsetXMetres, bottom.OffsetYMetres, InsideRim * rim)
            : null;
    }

    private CaptureCertificate Proven(StudyContext context)
    {
        double[][] margins;
        IReadOnlyList<CaptureLine> outline;
        try
        {
            margins = Margins(context);
            outline = Outline(margins);
        }
        catch (OperationCanceledException)
        {
            return None("Stopped before the proof.");
        }
        bool[][] proven = [.. margins.Select(row => row.Select(m => m > 0).ToArray())];
        int count = proven.Sum(row => row.Count(p => p));
        double kept = _certificate.BoostFactor;
        return new()
        {
            Applies = true,
            Text = FormattableString.Invariant(
                $"Proven by the energy, bounded in interval arithmetic: a start whose energy stays below {kept:0.######} of the potential on a circle of {_certificate.RadiusMetres:G6} m about the bottom of the well cannot cross that circle during the ride, however the light weakens in it. Starts between this region and the boundary are held in the rides that sampled them, and not proven."
            ),
            Assumptions = BallCertificate.Assumptions,
            ProvenHeld = proven,
            ProvenFraction = (double)count / (_grid.X.Values.Count * _grid.Y.Values.Count),
            CircleRadiusMetres = _certificate.RadiusMetres,
            BarrierJoules = _certificate.BarrierJoules,
            BoostFactor = kept,
            Outline = outline,
        };
    }

    // Energy left over the barrier, for every start of the grid; below zero outside the circle. One bound for each place.
    private double[][] Margins(StudyContext context)
    {
        RideStart[][] starts =
        [
            .. _grid.Y.Values.Select(y => _grid.X.Values.Select(x => _grid.StartAt(x, y)).ToArray()),
        ];
        (double, double) PlaceOf(RideStart s) =>
            _isRound ? (double.Hypot(s.OffsetXMetres, s.OffsetYMetres), 0) : (s.OffsetXMetres, s.OffsetYMetres);
        RideStart[] places = [.. starts.SelectMany(row => row).DistinctBy(PlaceOf)];
        double tolerance = places.Length > ManyPlaces ? ManyTolerance : StartTolerance;
        ConcurrentDictionary<(double, double), double> potentials = new();
        int done = 0;
        Parallel.ForEach(
            places,
            _options,
            place =>
            {
                potentials[PlaceOf(place)] = _certificate.PotentialJoules(place, tolerance);
                context.Progress.Report("proof", Interlocked.Increment(ref done), places.Length);
            }
        );
        double Margin(RideStart start) =>
            potentials[PlaceOf(start)] is var u && double.IsFinite(u)
                ? _certificate.MarginJoules(start, u) / _certificate.BarrierJoules
                : -1;
        return [.. starts.Select(row => row.Select(Margin).ToArray())];
    }

    // Where the proof ends, interpolated between the starts of the grid: for figures alone.
    private IReadOnlyList<CaptureLine> Outline(double[][] margins)
    {
        double?[][] values = [.. margins.Select(row => row.Select(m => (double?)m).ToArray())];
        Dictionary<GridEdge, double> places = [];
        foreach (GridEdge edge in LevelLines.CrossedEdges(values))
        {
            DesignAxis axis = edge.IsAcross ? _grid.X : _grid.Y;
            int i = edge.IsAcross ? edge.Column : edge.Row;
            double a = margins[edge.Row][edge.Column];
            double b = edge.IsAcross ? margins[edge.Row][edge.Column + 1] : margins[edge.Row + 1][edge.Column];
            double share = Math.Min(a, b) <= -1 ? (a > 0 ? 0 : 1) : a / (a - b);
            places[edge] = axis.Values[i] + share * (axis.Values[i + 1] - axis.Values[i]);
        }
        return
        [
            .. LevelLines
                .Connect(_grid.X.Values, _grid.Y.Values, values, places)
                .Select(line => new CaptureLine(line.X, line.Y, line.IsClosed)),
        ];
    }
}
