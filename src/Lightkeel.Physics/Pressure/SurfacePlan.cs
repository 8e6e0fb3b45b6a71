using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Quadrature;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>How much of a surface's lit side takes light.</summary>
internal enum LitPart
{
    /// <summary>Nothing: the light grazes a flat.</summary>
    None,

    /// <summary>All of it.</summary>
    All,

    /// <summary>What the terminator leaves.</summary>
    Some,
}

/// <summary>What is known of a placed surface before any pose: stretches of its meridian, ring tables, steepest slope.</summary>
internal sealed class SurfacePlan
{
    private const int SlopeSamples = 256;
    private readonly RingTable?[] _tables = new RingTable?[GaussKronrod.All.Count];
    private readonly double _shallowestTerminator;
    private readonly SurfaceOptics _backOptics;

    public SurfacePlan(PlacedSurface surface, Vec3 centerOfMassMetres, double featureLengthMetres)
    {
        (Surface, _backOptics) = (surface, surface.Optics.Reversed);
        ArmMetres = surface.OriginMetres - centerOfMassMetres;
        Pieces = surface.Shape.ClosedSphereRadiusMetres is null ? surface.Shape.Pieces : [new(0, Math.PI / 2)]; // a sphere is laid along the light: its lit hemisphere
        Stretches = Divide(surface.Shape, Pieces, 2.5 * featureLengthMetres);
        (double lowest, double highest) = surface.Shape.HeightRangeMetres;
        double height = Math.Max(Math.Abs(lowest), Math.Abs(highest));
        ReachMetres = ArmMetres.Length + double.Hypot(surface.Shape.MaximumRadiusMetres, height);
        LongestStretchMetres = Stretches.Max(s => ArcLength(surface.Shape, s.Piece, s.Start, s.End));
        _shallowestTerminator = ShallowestTerminator(surface.Shape, Pieces);
    }

    public PlacedSurface Surface { get; }

    /// <summary>Optics of the side that is lit: +1 the front, −1 the back.</summary>
    public SurfaceOptics OpticsOf(double side) => side < 0 ? _backOptics : Surface.Optics;

    /// <summary>Reference point from the centre of mass, body axes, m.</summary>
    public Vec3 ArmMetres { get; }

    /// <summary>Smooth stretches of the meridian that can be lit.</summary>
    public IReadOnlyList<MeridianPiece> Pieces { get; }

    /// <summary>The same, cut to the length over which the beam changes.</summary>
    public IReadOnlyList<(int Piece, double Start, double End)> Stretches { get; }

    /// <summary>Greatest distance from the centre of mass, m.</summary>
    public double ReachMetres { get; }

    /// <summary>Arc length of the longest stretch, m.</summary>
    public double LongestStretchMetres { get; }

    public bool IsSphere => Surface.Shape.ClosedSphereRadiusMetres is not null;

    /// <summary>Rings at the nodes of the given Gauss-Kronrod pair, built at first use.</summary>
    public RingTable Rings(int pair) =>
        Volatile.Read(ref _tables[pair])
        ?? Interlocked.CompareExchange(ref _tables[pair], Build(pair), null)
        ?? _tables[pair]!;

    /// <summary>Rings with the stretch through a meeting cut there, so that its ring is the edge of two stretches.</summary>
    public RingTable Rings(int pair, AxisMeeting meeting)
    {
        List<(int, double, double)> cut = [];
        foreach ((int piece, double start, double end) in Stretches)
        {
            if (piece == meeting.Piece && meeting.Parameter > start && meeting.Parameter < end)
            {
                cut.Add((piece, start, meeting.Parameter));
                cut.Add((piece, meeting.Parameter, end));
            }
            else
            {
                cut.Add((piece, start, end));
            }
        }
        return RingTable.Build(Surface.Shape, cut, GaussKronrod.All[pair]);
    }

    /// <summary>What part of the surface light of a direction (surface frame) falls on, and on which side (+1 front, −1 back).</summary>
    public (LitPart Part, double Side) LitBy(Vec3 direction)
    {
        if (IsSphere)
        {
            return (LitPart.All, 1);
        }
        double side = direction.Z < 0 ? -1 : 1;
        if (Surface.Shape.IsFlat)
        {
            return (direction.Z == 0 ? LitPart.None : LitPart.All, side);
        }
        double across = double.Hypot(direction.X, direction.Y);
        return (across <= side * direction.Z * _shallowestTerminator ? LitPart.All : LitPart.Some, side);
    }

    private RingTable Build(int pair) => RingTable.Build(Surface.Shape, Stretches, GaussKronrod.All[pair]);

    // Smallest tangent of the tilt at which some ring begins to be dark: −n_z / |n_r| over the meridian.
    private static double ShallowestTerminator(SurfaceOfRevolution shape, IReadOnlyList<MeridianPiece> pieces)
    {
        double smallest = double.PositiveInfinity;
        for (int p = 0; p < pieces.Count; p++)
        {
            for (int i = 0; i <= SlopeSamples; i++)
            {
                double u = pieces[p].Start + (pieces[p].End - pieces[p].Start) * i / SlopeSamples;
                MeridianPoint point = shape.At(p, u);
                double radial = Math.Abs(point.NormalRadial);
                double tangent = radial > 0 ? -point.NormalAxial / radial : double.PositiveInfinity;
                smallest = Math.Min(smallest, tangent);
            }
        }
        return Math.Max(0, smallest);
    }

    private static List<(int, double, double)> Divide(
        SurfaceOfRevolution shape,
        IReadOnlyList<MeridianPiece> pieces,
        double lengthMetres
    )
    {
        List<(int, double, double)> stretches = [];
        for (int p = 0; p < pieces.Count; p++)
        {
            (double start, double end) = pieces[p];
            int parts = (int)Math.Clamp(Math.Ceiling(ArcLength(shape, p, start, end) / lengthMetres), 1, 64);
            for (int i = 0; i < parts; i++)
            {
                stretches.Add((p, start + (end - start) * i / parts, start + (end - start) * (i + 1) / parts));
            }
        }
        return stretches;
    }

    private static double ArcLength(SurfaceOfRevolution shape, int piece, double start, double end) =>
        GaussLegendre.Order(12).Integrate(u => shape.At(piece, u).ArcRate, start, end);
}
