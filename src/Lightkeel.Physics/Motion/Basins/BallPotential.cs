using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Motion.Basins;

/// <summary>Rigorous bounds of the potential of a closed sphere about its centre of mass, zero far from the beam, by interval arithmetic.</summary>
/// <remarks>
/// With q² = 1 − s², s the distance from the line through the centre over the radius R,
/// <code>
/// U(X) = R (P/c) ∫∫ I₁(X + u) k(s) R² s ds dφ,      k = (2/3) Rs q³ + (1/3)(Rd + A e) q²
/// </code>
/// I₁ the irradiance per watt (docs/theory/map-and-well.md). The shadow is cut into cells of s and φ whose weights ∫ k s ds are
/// known in closed form. The mean of I₁ over a cell lies in its range there, and, by the mean value theorem, in
/// I₁(p₀) + g·⟨p − p₀⟩ ± |∇I₁ − g| max|p − p₀|, g the middle of the range of the gradient; the two are intersected, and cells
/// are split in four until the mean is known closely enough. Everything is rounded outwards; what is taken for granted is the
/// stated error of the elementary functions and that the profile is exactly the formula with its rounded constants.
/// </remarks>
public sealed class BallPotential
{
    private const double TrigonometricError = 1e-15;
    private const int MostSplits = 9;
    private readonly IBoundedProfile _profile;
    private readonly double _radius;
    private readonly double _specular;
    private readonly double _even;
    private readonly double _scale;
    private readonly bool _isRound;

    private BallPotential(Beam beam, double radius, OpticalCoefficients optics)
    {
        _profile = beam.Profile.Accept(new Bounding());
        _radius = radius;
        _specular = 2.0 / 3.0 * optics.Specular;
        _even = (optics.Diffuse + optics.Absorbed * optics.ThermalAsymmetry) / 3;
        _scale = beam.PowerWatts / Illumination.LightSpeed * radius * radius * radius;
        _isRound = beam.Profile.IsAxisymmetric;
    }

    /// <summary>Receives a profile under its own type.</summary>
    private interface IBoundedProfile
    {
        Interval At(Interval x, Interval y);

        IntervalGradient Over(Interval x, Interval y);
    }

    /// <summary>Prepares the bounds; null, with the reason, where a craft is no such ball or its potential may be negative.</summary>
    /// <param name="craft">The craft.</param>
    /// <param name="beam">The beam.</param>
    public static (BallPotential? Potential, string? Reason) For(SailCraft craft, Beam beam)
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(beam);
        Wells.CentralLight light = Wells.CentralLight.Of(craft);
        if (!light.HasPotential)
        {
            return (null, light.Reason);
        }
        if (craft.Surfaces is not [{ Shape.ClosedSphereRadiusMetres: { } radius, Optics: var optics }])
        {
            return (null, "The craft has several surfaces; bounds are known for one sphere.");
        }
        if (optics is not ConstantOptics { Shares: var shares })
        {
            return (null, "The shares of a layered film change with incidence; bounds are known for constant shares.");
        }
        return shares.Diffuse + shares.Absorbed * shares.ThermalAsymmetry < 0
            ? (null, "The recoil of the heat pulls on the lit side, so that its potential has no sign.")
            : (new BallPotential(beam, radius, shares), null);
    }

    /// <summary>Encloses the potential at a place, J.</summary>
    /// <param name="x">Offset of the centre along beam x, m.</param>
    /// <param name="y">Offset along beam y, m.</param>
    /// <param name="tolerance">Width to aim at, relative to the potential.</param>
    public Interval At(double x, double y, double tolerance)
    {
        // In a round beam only the distance counts; the hypotenuse is widened by its rounding, and half the shadow is enough.
        Interval place = _isRound
            ? Interval.Sqrt(Interval.Constant(x) * Interval.Constant(x) + Interval.Constant(y) * Interval.Constant(y))
            : Interval.Constant(x);
        Center center = new(place, Interval.Constant(_isRound ? 0 : y));
        Cell[] cells = [.. Cells(16, _isRound ? 16 : 32, _isRound ? Math.PI : 2 * Math.PI)];
        double rough = 0;
        foreach (Cell cell in cells)
        {
            rough += Weight(cell).Middle * Mean(center, cell).Middle;
        }
        double total = cells.Sum(c => Weight(c).Middle);
        double allowed = tolerance * Math.Max(rough / total, 1e-12 / (_radius * _radius));
        Interval sum = Interval.Constant(0);
        foreach (Cell cell in cells)
        {
            sum += Split(center, cell, allowed, 0);
        }
        return Scaled(_isRound ? 2.0 * sum : sum);
    }

    /// <summary>A bound of the force across the beam, N, on every centre inside a box.</summary>
    /// <param name="x">Offsets along beam x, m.</param>
    /// <param name="y">Offsets along beam y, m.</param>
    public (double X, double Y) LargestForce(Interval x, Interval y)
    {
        Center center = new(x, y);
        Interval sumX = Interval.Constant(0);
        Interval sumY = Interval.Constant(0);
        foreach (Cell cell in Cells(24, 64, 2 * Math.PI))
        {
            Interval weight = Weight(cell);
            (Interval px, Interval py) = Place(center, cell);
            IntervalGradient gradient = _profile.Over(px, py);
            sumX += weight * gradient.ByX;
            sumY += weight * gradient.ByY;
        }
        return (Scaled(sumX).Magnitude, Scaled(sumY).Magnitude);
    }

    // The scale itself has a few roundings in it.
    private Interval Scaled(Interval sum) => Interval.Around(_scale, 1e-14 * _scale) * sum;

    private static IEnumerable<Cell> Cells(int rings, int sectors, double turn)
    {
        for (int i = 0; i < rings; i++)
        {
            for (int j = 0; j < sectors; j++)
            {
                yield return new((double)i / rings, (i + 1.0) / rings, turn * j / sectors, turn * (j + 1) / sectors);
            }
        }
    }

    private Interval Split(in Center center, Cell cell, double allowed, int depth)
    {
        Interval mean = Mean(center, cell);
        if (depth == MostSplits || mean.Upper - mean.Lower <= allowed)
        {
            return Weight(cell) * mean;
        }
        double s = 0.5 * (cell.S1 + cell.S2);
        double phi = 0.5 * (cell.Phi1 + cell.Phi2);
        return Split(center, cell with { S2 = s, Phi2 = phi }, allowed, depth + 1)
            + Split(center, cell with { S1 = s, Phi2 = phi }, allowed, depth + 1)
            + Split(center, cell with { S2 = s, Phi1 = phi }, allowed, depth + 1)
            + Split(center, cell with { S1 = s, Phi1 = phi }, allowed, depth + 1);
    }

    // ∫ k s ds dφ over a cell, with s ds = −q dq.
    private Interval Weight(Cell cell)
    {
        Interval turn = Interval.Constant(cell.Phi2) - Interval.Constant(cell.Phi1);
        Interval a = Cosine(cell.S1);
        Interval b = Cosine(cell.S2);
        Interval a4 = a * a * a * a;
        Interval b4 = b * b * b * b;
        Interval five = Interval.Constant(_specular) / Interval.Constant(5) * (a4 * a - b4 * b);
        Interval four = Interval.Constant(_even) / Interval.Constant(4) * (a4 - b4);
        Interval weight = turn * (five + four);
        // Half a turn of doubles is not half a turn: the cells may miss or double a sliver.
        return new(Math.Max(0, weight.Lower) * (1 - 4e-15), Math.BitIncrement(weight.Upper * (1 + 4e-15)));
    }

    private static Interval Cosine(double s)
    {
        Interval square = Interval.Constant(s) * Interval.Constant(s);
        Interval q = Interval.Sqrt(Interval.Constant(1) - square);
        return new(q.Lower, Math.Min(1, q.Upper));
    }

    private Interval Mean(in Center center, Cell cell)
    {
        (Interval px, Interval py) = Place(center, cell);
        IntervalGradient range = _profile.Over(px, py);
        Interval rough = new(Math.Max(0, range.Value.Lower), range.Value.Upper);
        if (!range.ByX.IsFinite || !range.ByY.IsFinite)
        {
            return rough;
        }
        double s = 0.5 * (cell.S1 + cell.S2);
        double phi = 0.5 * (cell.Phi1 + cell.Phi2);
        Interval cos = Interval.Around(Math.Cos(phi), TrigonometricError);
        Interval sin = Interval.Around(Math.Sin(phi), TrigonometricError);
        Interval x0 = center.X + _radius * (Interval.Constant(s) * cos);
        Interval y0 = center.Y + _radius * (Interval.Constant(s) * sin);
        (double gx, double gy) = (range.ByX.Middle, range.ByY.Middle);
        // ⟨s⟩ and ⟨cos φ⟩ of the cell against its middle.
        double half = 0.5 * (cell.Phi2 - cell.Phi1);
        Interval shrink = new(1 - half * half / 6 - 1e-15, 1);
        Interval radial = _radius * Interval.Around(s, MeanShift(cell));
        Interval meanX = radial * shrink * cos - _radius * (Interval.Constant(s) * cos);
        Interval meanY = radial * shrink * sin - _radius * (Interval.Constant(s) * sin);
        double reachX = (px - x0).Magnitude;
        double reachY = (py - y0).Magnitude;
        Interval rest =
            range.ByX.Radius * new Interval(-reachX, reachX) + range.ByY.Radius * new Interval(-reachY, reachY);
        Interval fine = _profile.At(x0, y0) + gx * meanX + gy * meanY + rest;
        return Interval.Common(rough, fine);
    }

    // How far the mean of s, weighted by k s, may lie from the middle: |∫ x f| ≤ (b − a) h²/8 for a weight f between a and b.
    private double MeanShift(Cell cell)
    {
        double h = cell.S2 - cell.S1;
        double Density(double q2, double s) => (_specular * q2 * Math.Sqrt(q2) + _even * q2) * s;
        double most = Density(Math.Max(0, 1 - cell.S1 * cell.S1), cell.S2) * (1 + 1e-12);
        double least = Density(Math.Max(0, 1 - cell.S2 * cell.S2), cell.S1) * (1 - 1e-12);
        double whole = Weight(cell).Lower / (cell.Phi2 - cell.Phi1) * (1 - 1e-12);
        double shift = whole > 0 ? (most - least) * h * h / (8 * whole) : 0.5 * h;
        return Math.Min(0.5 * h, shift) * (1 + 1e-12);
    }

    // The box of places that a cell covers; cells do not straddle a quarter turn, so sine and cosine are monotonic in them.
    private (Interval X, Interval Y) Place(in Center center, Cell cell)
    {
        Interval s = new(cell.S1, cell.S2);
        Interval cos = Between(Math.Cos(cell.Phi1), Math.Cos(cell.Phi2));
        Interval sin = Between(Math.Sin(cell.Phi1), Math.Sin(cell.Phi2));
        return (center.X + _radius * (s * cos), center.Y + _radius * (s * sin));
    }

    private static Interval Between(double a, double b) =>
        new(Math.Min(a, b) - TrigonometricError, Math.Max(a, b) + TrigonometricError);

    private readonly record struct Center(Interval X, Interval Y);

    private readonly record struct Cell(double S1, double S2, double Phi1, double Phi2);

    private sealed class Bounding : IBeamVisitor<IBoundedProfile>
    {
        public IBoundedProfile Visit<TProfile>(TProfile profile)
            where TProfile : struct, IBeamProfile => new Bounded<TProfile>(profile);
    }

    private sealed class Bounded<TProfile>(TProfile profile) : IBoundedProfile
        where TProfile : struct, IBeamProfile
    {
        public Interval At(Interval x, Interval y) => profile.UnitIrradiance(x, y);

        public IntervalGradient Over(Interval x, Interval y) =>
            profile.UnitIrradiance(IntervalGradient.VariableX(x), IntervalGradient.VariableY(y));
    }
}
