using Lightkeel.Numerics;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>
/// Light pressure from a table of Chebyshev series in the coordinates that symmetry leaves (one for a ball in an axisymmetric beam,
/// two for a ball in any beam, three for an axisymmetric craft in an axisymmetric beam, one more for the size of the beam), to a
/// relative accuracy proven at points that it was not fitted on.
/// </summary>
/// <remarks>
/// What lies outside its box (larger offset or tilt, a beam beyond the sizes asked for, a lateral speed whose second order
/// counts) it asks of the quadrature that filled it. Power and the Doppler factor scale the table. The slant of the light that
/// a lateral velocity brings is kept to first order by a second table. Offsets are tabled for the place on the axis, centre of
/// mass or surface, that needs the fewest coefficients. Theory: docs/theory/map-and-well.md. Immutable; safe to share between
/// threads; an evaluation takes no memory from the heap.
/// </remarks>
public sealed class PressureAtlas : IPressureEngine
{
    private readonly IPressureEngine _engine;
    private readonly IPressureEngine _slopes;
    private readonly SailCraft _craft;
    private readonly Beam _beam;

    private PressureAtlas(SailCraft craft, Beam beam, AtlasContent content)
    {
        (_craft, _beam, Content) = (craft, beam, content);
        IsAttitudeFree = AtlasScene.Balls(craft);
        (_engine, _slopes) = Engines(craft, beam, content);
    }

    /// <inheritdoc/>
    public string Name => "atlas";

    /// <inheritdoc/>
    public double Accuracy => _engine.Accuracy;

    /// <summary>What it holds and how well it is proven.</summary>
    public AtlasReport Report => Content.Report;

    /// <summary>True when the craft's attitude does not count: a closed sphere about the centre of mass.</summary>
    public bool IsAttitudeFree { get; }

    internal AtlasContent Content { get; }

    /// <summary>What answers for values: for callers that ask very often.</summary>
    internal IPressureEngine Values => _engine;

    /// <summary>
    /// Whether an atlas can be had for a craft in a beam, by their symmetry and because its shares of light are the same at every wavelength.
    /// </summary>
    /// <param name="craft">The craft.</param>
    /// <param name="beam">The beam.</param>
    public static bool CanServe(SailCraft craft, Beam beam)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(beam);
        return craft.Surfaces.All(s => s.Optics.IsConstant)
            && (AtlasScene.Balls(craft) || (craft.IsAxisymmetric && beam.Profile.IsAxisymmetric));
    }

    /// <summary>Builds an atlas.</summary>
    /// <param name="craft">An axisymmetric craft.</param>
    /// <param name="beam">An axisymmetric beam; any beam for a closed sphere about the centre of mass.</param>
    /// <param name="box">Poses to cover; its tilt is cut to what light meets once.</param>
    /// <param name="accuracy">Relative accuracy of force and torque, 1e-11 … 1e-2.</param>
    /// <param name="threads">Threads that may work at once; the result does not depend on it.</param>
    /// <exception cref="ArgumentException">The symmetry that an atlas needs is missing, or the box is no box.</exception>
    /// <exception cref="PressureUnavailableException">Light meets even the untilted craft more than once.</exception>
    public static PressureAtlas Build(SailCraft craft, Beam beam, AtlasBox box, double accuracy = 1e-6, int threads = 1)
    {
        ArgumentNullException.ThrowIfNull(box);
        if (!CanServe(craft, beam))
        {
            throw new ArgumentException(
                "An atlas needs surfaces with constant shares and a closed sphere about the centre of mass, or a craft that is axisymmetric about its body axis through the centre of mass in an axisymmetric beam."
            );
        }
        Require.Positive(box.OffsetMetres);
        Require.Positive(box.SmallestScale);
        Require.Between(box.LargestScale, box.SmallestScale, double.MaxValue);
        Require.Between(accuracy, 1e-11, 1e-2);
        AtlasContent content = beam.Profile.IsAxisymmetric
            ? AtlasBuild.Of(craft, beam, box, accuracy, threads)
            : PlaneBuild.Of(craft, beam, box, accuracy, threads);
        return new(craft, beam, content);
    }

    /// <summary>The same atlas for a beam of the same shape and another power; nothing is built again.</summary>
    /// <param name="powerWatts">Power, W, more than zero.</param>
    public PressureAtlas ForPower(double powerWatts) =>
        new(_craft, _beam with { PowerWatts = Require.Positive(powerWatts) }, Content);

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose) => _engine.Evaluate(pose);

    /// <inheritdoc/>
    /// <remarks>From the series itself; poses with a lateral velocity or in a beam off its designed size are handed over.</remarks>
    public PressureDerivatives Differentiate(in CraftPose pose) => _slopes.Differentiate(pose);

    internal static PressureAtlas From(SailCraft craft, Beam beam, AtlasContent content) => new(craft, beam, content);

    // For values and for derivatives: these are read about the place that was tabled and carried over.
    private static (IPressureEngine Values, IPressureEngine Slopes) Engines(
        SailCraft craft,
        Beam beam,
        AtlasContent content
    )
    {
        double shift = content.ShiftMetres;
        SurfaceQuadrature outside = AtlasBuild.Engine(craft, beam, 0, content.Accuracy);
        if (content.Kind == AtlasKind.Plane)
        {
            PlaneTable plane = new(content, outside, beam.PowerWatts);
            return (plane, plane);
        }
        AtlasTable table = new(content, outside, craft, shift, beam.PowerWatts);
        if (shift == 0)
        {
            return (table, table);
        }
        SailCraft about = AtlasBuild.About(craft, shift);
        SurfaceQuadrature tabled = AtlasBuild.Engine(craft, beam, shift, content.Accuracy);
        return (
            table,
            new RecenteredPressure(
                new AtlasTable(content, tabled, about, 0, beam.PowerWatts),
                new(0, 0, shift),
                SharedPressure.ReachOf(about),
                SharedPressure.ReachOf(craft)
            )
        );
    }
}
