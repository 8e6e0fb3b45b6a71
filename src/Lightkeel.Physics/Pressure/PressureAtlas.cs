using Lightkeel.Numerics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// Light pressure of an axisymmetric craft in an axisymmetric beam from a table of Chebyshev series in the coordinates that
/// symmetry leaves (one for a ball, three else), to a relative accuracy proven at points that it was not fitted on.
/// </summary>
/// <remarks>
/// What lies outside its box (larger offset or tilt, a beam off its designed size, a lateral speed whose second order
/// counts) it asks of the quadrature that filled it. Power and the Doppler factor scale the table. The slant of the light that
/// a lateral velocity brings is kept to first order by a second table. Offsets are tabled for the place on the axis, centre of
/// mass or surface, that needs the fewest coefficients. Theory: docs/theory/map-and-well.md. Immutable; safe to share between
/// threads; an evaluation takes no memory from the heap.
/// </remarks>
public sealed class PressureAtlas : IPressureEngine
{
    private readonly IPressureEngine _engine;
    private readonly double _powerWatts;

    private PressureAtlas(IPressureEngine engine, AtlasReport report, double powerWatts) =>
        (_engine, Report, _powerWatts) = (engine, report, powerWatts);

    /// <inheritdoc/>
    public string Name => "atlas";

    /// <inheritdoc/>
    public double Accuracy => _engine.Accuracy;

    /// <summary>What it holds and how well it is proven.</summary>
    public AtlasReport Report { get; }

    /// <summary>Builds an atlas.</summary>
    /// <param name="craft">An axisymmetric craft.</param>
    /// <param name="beam">An axisymmetric beam.</param>
    /// <param name="box">Poses to cover; its tilt is cut to what light meets once.</param>
    /// <param name="accuracy">Relative accuracy of force and torque, 1e-11 … 1e-2.</param>
    /// <param name="threads">Threads that may work at once; the result does not depend on it.</param>
    /// <exception cref="ArgumentException">Craft or beam is not axisymmetric.</exception>
    /// <exception cref="PressureUnavailableException">Light meets even the untilted craft more than once.</exception>
    public static PressureAtlas Build(SailCraft craft, Beam beam, AtlasBox box, double accuracy = 1e-6, int threads = 1)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(beam);
        ArgumentNullException.ThrowIfNull(box);
        Require.Positive(box.OffsetMetres);
        Require.Between(accuracy, 1e-11, 1e-2);
        AtlasBuild? leanest = null;
        double shift = 0;
        int evaluations = 0;
        foreach (double candidate in Places(craft))
        {
            AtlasBuild build = AtlasBuild.Of(craft, beam, box, candidate, accuracy, threads);
            evaluations += build.Report.Evaluations;
            if (leanest is null || IsBetter(build.Report, leanest.Report))
            {
                (leanest, shift) = (build, candidate);
            }
        }
        AtlasTable table = new(leanest!, beam.PowerWatts);
        AtlasReport report = table.Report with { Box = leanest!.Asked, Evaluations = evaluations };
        double reach = SharedPressure.ReachOf(craft);
        return shift == 0
            ? new(table, report, beam.PowerWatts)
            : new(
                new RecenteredPressure(table, new(0, 0, shift), leanest.Scene.ReachMetres, reach),
                report,
                beam.PowerWatts
            );
    }

    /// <summary>The same atlas for a beam of the same shape and another power; nothing is built again.</summary>
    /// <param name="powerWatts">Power, W, more than zero.</param>
    public PressureAtlas ForPower(double powerWatts)
    {
        double factor = Require.Positive(powerWatts) / _powerWatts;
        return new(new ScaledPressure(_engine, factor), Report, powerWatts);
    }

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose) => _engine.Evaluate(pose);

    /// <inheritdoc/>
    /// <remarks>From the series itself; poses with a lateral velocity are handed over.</remarks>
    public PressureDerivatives Differentiate(in CraftPose pose) => _engine.Differentiate(pose);

    private static bool IsBetter(AtlasReport a, AtlasReport b) =>
        a.CoveredShare != b.CoveredShare ? a.CoveredShare > b.CoveredShare : a.Coefficients < b.Coefficients;

    // Distances along the body axis from the centre of mass: itself, the middle of the first surface, its centre of curvature.
    private static List<double> Places(SailCraft craft)
    {
        PlacedSurface first = craft.Surfaces[0];
        double side = first.BodyFromSurface.Row2.Z < 0 ? -1 : 1;
        (double low, double high) = first.Shape.HeightRangeMetres;
        double origin = first.OriginMetres.Z - craft.Mass.CenterOfMassMetres.Z;
        List<double> places = [0];
        if (first.Shape.ClosedSphereRadiusMetres is not null)
        {
            places.Add(origin);
        }
        else
        {
            places.Add(origin + side * 0.5 * (low + high));
        }
        if (first.Shape is SphericalCap cap)
        {
            places.Add(origin + side * (low < 0 ? -1 : 1) * cap.CurvatureRadiusMetres);
        }
        return [.. places.Where((p, i) => i == 0 || Math.Abs(p) > 1e-9 * first.Shape.MaximumRadiusMetres)];
    }
}
