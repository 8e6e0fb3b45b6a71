using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// Light pressure of one set of surfaces in one beam, computed once and shared by all craft that carry these surfaces and
/// differ in their masses alone.
/// </summary>
/// <remarks>
/// The answers at one pose, by default on the axis, are kept; elsewhere the surfaces are integrated again. Immutable but
/// for that memory, which holds the same whoever fills it; safe to share between threads.
/// </remarks>
public sealed class SharedPressure
{
    private readonly Remembering _engine;
    private readonly Vec3 _centre;
    private readonly double _reach;

    /// <summary>Prepares the surfaces.</summary>
    /// <param name="engine">Light pressure of a craft with these surfaces.</param>
    /// <param name="craft">That craft; its centre of mass is the place that answers are kept for.</param>
    /// <param name="remembered">Pose whose answers are kept.</param>
    public SharedPressure(IPressureEngine engine, SailCraft craft, in CraftPose remembered)
    {
        ArgumentNullException.ThrowIfNull(engine);
        ArgumentNullException.ThrowIfNull(craft);
        _engine = new(engine, remembered);
        _centre = craft.Mass.CenterOfMassMetres;
        _reach = ReachOf(craft);
    }

    /// <summary>The engine of a craft with the same surfaces and other masses.</summary>
    /// <param name="craft">The craft; that its surfaces and beam are the same is the caller's word.</param>
    public IPressureEngine For(SailCraft craft)
    {
        ArgumentNullException.ThrowIfNull(craft);
        Vec3 oldFromNew = _centre - craft.Mass.CenterOfMassMetres;
        return oldFromNew == Vec3.Zero ? _engine : new RecenteredPressure(_engine, oldFromNew, _reach, ReachOf(craft));
    }

    /// <summary>Greatest distance of a surface from the centre of mass, an upper bound, m: the length by which torques are measured.</summary>
    internal static double ReachOf(SailCraft craft) =>
        craft.Surfaces.Max(s =>
        {
            (double lowest, double highest) = s.Shape.HeightRangeMetres;
            double height = Math.Max(Math.Abs(lowest), Math.Abs(highest));
            return (s.OriginMetres - craft.Mass.CenterOfMassMetres).Length
                + double.Hypot(s.Shape.MaximumRadiusMetres, height);
        });

    /// <summary>An engine that keeps its answers at one pose.</summary>
    private sealed class Remembering(IPressureEngine engine, CraftPose remembered) : IPressureEngine
    {
        private readonly Lazy<PressureReading> _reading = new(() => engine.Evaluate(remembered));
        private readonly Lazy<PressureDerivatives> _derivatives = new(() => engine.Differentiate(remembered));

        public string Name => engine.Name;

        public double Accuracy => engine.Accuracy;

        public PressureReading Evaluate(in CraftPose pose) =>
            pose == remembered ? _reading.Value : engine.Evaluate(pose);

        public PressureDerivatives Differentiate(in CraftPose pose) =>
            pose == remembered ? _derivatives.Value : engine.Differentiate(pose);
    }
}
