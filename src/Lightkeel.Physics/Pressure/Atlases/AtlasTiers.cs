using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>
/// Atlases of one craft in one beam over boxes that hold one another: the smallest box that holds a pose answers, because a small
/// box needs few coefficients. A larger one is built when a pose first needs it.
/// </summary>
/// <remarks>The answer depends on the pose alone, not on what was built when. Safe to share between threads.</remarks>
public sealed class AtlasTiers : IPressureEngine
{
    private readonly Tier[] _tiers;

    /// <summary>Prepares the tiers and builds the first.</summary>
    /// <param name="boxes">The boxes, the smallest first.</param>
    /// <param name="build">Builds the atlas of a box.</param>
    public AtlasTiers(IReadOnlyList<AtlasBox> boxes, Func<AtlasBox, PressureAtlas> build)
    {
        ArgumentNullException.ThrowIfNull(boxes);
        ArgumentNullException.ThrowIfNull(build);
        _tiers = [.. boxes.Select(b => new Tier(b, build))];
        First = _tiers[0].Atlas;
    }

    /// <summary>The atlas of the smallest box.</summary>
    public PressureAtlas First { get; }

    /// <inheritdoc/>
    public string Name => First.Name;

    /// <inheritdoc/>
    public double Accuracy => First.Accuracy;

    /// <summary>The atlases that were built so far, the smallest box first.</summary>
    public IReadOnlyList<PressureAtlas> Built => [.. _tiers.Where(t => t.IsBuilt).Select(t => t.Atlas)];

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose) => For(pose).Evaluate(pose);

    /// <inheritdoc/>
    public PressureDerivatives Differentiate(in CraftPose pose) => For(pose).Differentiate(pose);

    /// <summary>The atlas that answers for a ball at every place between two offsets; null where they are two.</summary>
    internal PressureAtlas? ForBall(double leastSquare, double largestSquare)
    {
        for (int i = 0; i < _tiers.Length - 1; i++)
        {
            if (_tiers[i].Holds(largestSquare, Vec3.UnitZ))
            {
                return _tiers[i].Atlas;
            }
            if (_tiers[i].Holds(leastSquare, Vec3.UnitZ))
            {
                return null;
            }
        }
        return _tiers[^1].Atlas;
    }

    private PressureAtlas For(in CraftPose pose)
    {
        double square = pose.OffsetXMetres * pose.OffsetXMetres + pose.OffsetYMetres * pose.OffsetYMetres;
        Vec3 axis = pose.BeamFromBody.Column2;
        for (int i = 0; i < _tiers.Length - 1; i++)
        {
            if (_tiers[i].Holds(square, axis))
            {
                return _tiers[i].Atlas;
            }
        }
        return _tiers[^1].Atlas;
    }

    private sealed class Tier
    {
        private readonly Lazy<PressureAtlas> _atlas;
        private readonly double _square;
        private readonly double _cosine;

        public Tier(AtlasBox box, Func<AtlasBox, PressureAtlas> build)
        {
            _atlas = new(() => build(box));
            // A lateral velocity shifts a pose by some v/c: kept clear of the edge.
            double offset = box.OffsetMetres * (1 - 1e-3);
            _square = offset * offset;
            _cosine = Math.Cos(box.TiltRadians * (1 - 1e-3));
        }

        public bool IsBuilt => _atlas.IsValueCreated;

        public PressureAtlas Atlas => _atlas.Value;

        public bool Holds(double offsetSquare, Vec3 axis) =>
            offsetSquare <= _square && (axis.Z >= _cosine || Atlas.IsAttitudeFree);
    }
}
