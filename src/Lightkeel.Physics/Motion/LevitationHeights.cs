using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion;

/// <summary>A height at which the light carries the weight.</summary>
/// <param name="DistanceMetres">Station along the beam from the start, m.</param>
/// <param name="RangeMetres">Distance from the director, m.</param>
/// <param name="BeamScale">Size of the beam there over its designed size.</param>
/// <param name="StiffnessNewtonsPerMetre">−dF_z/dz, N/m: positive where the craft returns when it is lifted or sinks.</param>
/// <param name="FrequencyHertz">Frequency of small vertical oscillations, Hz; null where the height is not stable.</param>
public sealed record LevitationHeight(
    double DistanceMetres,
    double RangeMetres,
    double BeamScale,
    double StiffnessNewtonsPerMetre,
    double? FrequencyHertz
);

/// <summary>Where a craft on the axis of an upward beam hangs in balance with its weight.</summary>
/// <param name="Heights">The heights, lowest first; empty where there is none.</param>
/// <param name="Explanation">What was found, in words; where there is no height, why, and what to change.</param>
public sealed record LevitationHeights(IReadOnlyList<LevitationHeight> Heights, string Explanation)
{
    private const double LargestScale = 1e4;
    private const int ScansPerDoubling = 24;

    /// <summary>Finds the heights of the untilted craft on the axis, at rest, at a power factor.</summary>
    /// <param name="setup">Craft, engine, director and gravity.</param>
    /// <param name="powerFactor">Power over nominal power.</param>
    /// <exception cref="PressureUnavailableException">The engine has no pressure for the straight pose.</exception>
    public static LevitationHeights Find(RideSetup setup, double powerFactor = 1)
    {
        ArgumentNullException.ThrowIfNull(setup);
        double weight = setup.Mass.MassKilograms * setup.GravityMetresPerSecondSquared;
        if (weight == 0)
        {
            return new([], "There is no gravity, so there is no height of balance: give one (surroundings.gravity).");
        }
        double Excess(double scale) => powerFactor * Lift(setup.Engine, scale) - weight;
        double held = Excess(1);
        if (setup.Director is not { } director)
        {
            double lift = held + weight;
            string balance =
                lift > 0
                    ? FormattableString.Invariant(
                        $"there is balance everywhere at {weight / lift * powerFactor:G6} of the nominal power, and nowhere else"
                    )
                    : "and it never carries the weight";
            return new(
                [],
                FormattableString.Invariant(
                    $"Without a director the beam keeps its size, so the lift of {lift:G6} N against a weight of {weight:G6} N does not depend on height: {balance}. Give the beam a director whose spot grows within reach."
                )
            );
        }
        List<LevitationHeight> heights = [];
        double lowest = Math.Max(1, director.ScaleAt(0));
        double previous = lowest;
        double atPrevious = Excess(lowest);
        double best = atPrevious;
        for (double scale = lowest; scale < LargestScale; )
        {
            scale *= Math.Pow(2, 1.0 / ScansPerDoubling);
            double now = Excess(scale);
            best = Math.Max(best, now);
            if (atPrevious > 0 != now > 0)
            {
                heights.Add(At(setup, director, powerFactor, Root(Excess, previous, scale, atPrevious > 0)));
            }
            (previous, atPrevious) = (scale, now);
        }
        return new(heights, Explain(heights, weight, best, director, powerFactor));
    }

    private static double Lift(IPressureEngine engine, double scale) =>
        engine.Evaluate(CraftPose.OnAxis with { BeamScale = scale }).ForceNewtons.Z;

    private static double Root(Func<double, double> excess, double low, double high, bool lowIsPositive)
    {
        while (true)
        {
            double middle = 0.5 * (low + high);
            if (middle <= low || middle >= high)
            {
                return middle;
            }
            bool same = excess(middle) > 0 == lowIsPositive;
            (low, high) = same ? (middle, high) : (low, middle);
        }
    }

    private static LevitationHeight At(RideSetup setup, BeamDirector director, double powerFactor, double scale)
    {
        // A central difference, extrapolated once: its error of 1e-10 is far below that of any power.
        double Slope(double h) =>
            powerFactor * (Lift(setup.Engine, scale * (1 + h)) - Lift(setup.Engine, scale * (1 - h))) / (2 * h * scale);
        double byScale = (4 * Slope(1e-3) - Slope(2e-3)) / 3;
        double stiffness = -byScale / director.HoldRangeMetres;
        double range = scale * director.HoldRangeMetres;
        return new(
            range - director.StandoffMetres,
            range,
            scale,
            stiffness,
            stiffness > 0 ? Math.Sqrt(stiffness / setup.Mass.MassKilograms) / (2 * Math.PI) : null
        );
    }

    private static string Explain(
        List<LevitationHeight> heights,
        double weight,
        double best,
        BeamDirector director,
        double powerFactor
    )
    {
        if (heights.Count > 0)
        {
            string list = string.Join(
                ", ",
                heights.Select(h =>
                    FormattableString.Invariant(
                        $"{h.DistanceMetres:G6} m ({(h.FrequencyHertz is { } f ? FormattableString.Invariant($"stable, {f:G4} Hz") : "not stable")})"
                    )
                )
            );
            return $"The light carries the weight at {list} from the start.";
        }
        return best <= 0
            ? FormattableString.Invariant(
                $"The light is too weak to carry the weight at any height: at best {best + weight:G6} N against {weight:G6} N. Raise the power by a factor of {weight / (best + weight):G7} or more, now {powerFactor:G4} of nominal."
            )
            : FormattableString.Invariant(
                $"The light carries more than the weight out to {LargestScale:G2} times the range of {director.HoldRangeMetres:G6} m to which the spot is held: no balance within reach. Lower the power, or give a smaller aperture."
            );
    }
}
