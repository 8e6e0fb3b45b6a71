using Lightkeel.Numerics.Interpolation;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// First order of what slanting light does: derivatives of force and torque by the light's direction, the profile upright. It is
/// what damps a swing, a millionth of the force and less, so a ten-thousandth of it is accuracy enough.
/// </summary>
/// <remarks>
/// Tabled over offset, lean and the cosine of the azimuth between them, for a slant along the offset and one across it. Parts
/// that change sign with the azimuth are kept over its sine. Filled by central differences of the quadrature at slants of ±1e-4.
/// </remarks>
internal sealed class AtlasSlant
{
    /// <summary>Slant at which the table is filled, rad.</summary>
    public const double Step = 1e-4;

    private const int Lanes = 16;
    private const int MostTerms = 48;
    private const double Target = 1e-4;

    // Along the offset: F_x, F_z, T_y and the powers are even in the azimuth; F_y, T_x, T_z odd. Across it, the other way round.
    private static readonly bool[] IsOdd =
    [
        false,
        true,
        false,
        true,
        false,
        true,
        false,
        false,
        true,
        false,
        true,
        false,
        true,
        false,
        true,
        true,
    ];

    private readonly double[] _coefficients;
    private readonly int _nA;
    private readonly int _nB;
    private readonly int _nF;

    private AtlasSlant(double[] coefficients, int nA, int nB, int nF) =>
        (_coefficients, _nA, _nB, _nF) = (coefficients, nA, nB, nF);

    /// <summary>Builds the table; null when it does not reach its accuracy.</summary>
    public static AtlasSlant? Build(AtlasScene scene, int threads)
    {
        (int nA, int nB, int nF) = scene.IsBall ? (16, 1, 1) : (16, 6, 5);
        for (int attempt = 0; attempt < 5; attempt++)
        {
            AtlasSlant table = Fit(scene, nA, nB, nF, threads);
            if (2 * table.Miss(scene, threads) <= Target)
            {
                return table;
            }
            nA = Math.Min(MostTerms, nA + 8);
            nB = scene.IsBall ? 1 : nB + 3;
            nF = scene.IsBall ? 1 : nF + 3;
        }
        return null;
    }

    /// <summary>Change of force, torque and power by the slant of a place.</summary>
    public UnitWrench Change(in AtlasPlace at)
    {
        double offset = Math.Sqrt(at.A);
        double lean = Math.Sqrt(at.B);
        (double ex, double ey) =
            offset > 0 ? (at.Rx / offset, at.Ry / offset)
            : lean > 0 ? (at.Tx / lean, at.Ty / lean)
            : (1.0, 0.0);
        double cos = lean > 0 ? Math.Clamp((ex * at.Tx + ey * at.Ty) / lean, -1, 1) : 1;
        double sin = lean > 0 ? (ex * at.Ty - ey * at.Tx) / lean : 0;
        Span<double> v = stackalloc double[Lanes];
        Values(v, offset, lean, cos, sin);
        double along = at.SlantX * ex + at.SlantY * ey;
        double across = at.SlantY * ex - at.SlantX * ey;
        for (int i = 0; i < 8; i++)
        {
            v[i] = along * v[i] + across * v[i + 8];
        }
        Vec3 force = new(ex * v[0] - ey * v[1], ey * v[0] + ex * v[1], v[2]);
        Vec3 torque = new(ex * v[3] - ey * v[4], ey * v[3] + ex * v[4], v[5]);
        return new(force, torque, v[6], v[7]);
    }

    // All sixteen derivatives, in axes along and across the offset.
    private void Values(Span<double> v, double offset, double lean, double cos, double sin)
    {
        Span<double> inA = stackalloc double[MostTerms];
        Span<double> inB = stackalloc double[MostTerms];
        Span<double> inF = stackalloc double[MostTerms];
        Fill(inA, _nA, 2 * offset - 1);
        Fill(inB, _nB, 2 * lean - 1);
        Fill(inF, _nF, cos);
        v.Clear();
        int at = 0;
        for (int m = 0; m < _nF; m++)
        {
            for (int j = 0; j < _nB; j++)
            {
                double outer = inF[m] * inB[j];
                for (int k = 0; k < _nA; k++, at += Lanes)
                {
                    double weight = outer * inA[k];
                    for (int lane = 0; lane < Lanes; lane++)
                    {
                        v[lane] = Math.FusedMultiplyAdd(weight, _coefficients[at + lane], v[lane]);
                    }
                }
            }
        }
        for (int lane = 0; lane < Lanes; lane++)
        {
            v[lane] = IsOdd[lane] ? sin * v[lane] : v[lane];
        }
    }

    private static void Fill(Span<double> basis, int terms, double t)
    {
        basis[0] = 1;
        basis[1] = t;
        for (int k = 2; k < terms; k++)
        {
            basis[k] = 2 * t * basis[k - 1] - basis[k - 2];
        }
    }

    private static AtlasSlant Fit(AtlasScene scene, int nA, int nB, int nF, int threads)
    {
        double[] offsets = ChebyshevSeries.Points(0, 1, nA);
        double[] leans = ChebyshevSeries.Points(0, 1, nB);
        double[] values = new double[nA * nB * nF * Lanes];
        Parallel.For(
            0,
            nA * nB * nF,
            new ParallelOptions { MaxDegreeOfParallelism = threads },
            n =>
            {
                (int m, int rest) = Math.DivRem(n, nA * nB);
                (int j, int k) = Math.DivRem(rest, nA);
                double azimuth = Math.PI * (m + 0.5) / nF;
                Span<double> v = values.AsSpan(n * Lanes, Lanes);
                Exact(scene, offsets[k], leans[j], azimuth, v);
                for (int lane = 0; lane < Lanes; lane++)
                {
                    v[lane] = IsOdd[lane] ? v[lane] / Math.Sin(azimuth) : v[lane];
                }
            }
        );
        Transform(values, nF, nA * nB, 1);
        Transform(values, nB, nA, nF);
        Transform(values, nA, 1, nF * nB);
        return new(values, nA, nB, nF);
    }

    // Chebyshev transform along one coordinate: n values a stride apart, for every group.
    private static void Transform(double[] values, int n, int stride, int groups)
    {
        double[] line = new double[n];
        double[] series = new double[n];
        for (int g = 0; g < groups; g++)
        {
            for (int s = 0; s < stride; s++)
            {
                for (int lane = 0; lane < Lanes; lane++)
                {
                    int At(int i) => ((g * n + i) * stride + s) * Lanes + lane;
                    for (int i = 0; i < n; i++)
                    {
                        line[i] = values[At(i)];
                    }
                    ChebyshevSeries.Transform(line, series);
                    for (int i = 0; i < n; i++)
                    {
                        values[At(i)] = series[i];
                    }
                }
            }
        }
    }

    /// <summary>The sixteen derivatives by central differences.</summary>
    private static void Exact(AtlasScene scene, double offset, double lean, double azimuth, Span<double> v)
    {
        CraftPose pose = scene.Pose(offset, lean, azimuth);
        for (int direction = 0; direction < 2; direction++)
        {
            double speed = Step * Illumination.LightSpeed;
            Vec3 velocity = direction == 0 ? new(speed, 0, 0) : new(0, speed, 0);
            UnitWrench minus = scene.Unit(pose with { VelocityMetresPerSecond = velocity });
            UnitWrench plus = scene.Unit(pose with { VelocityMetresPerSecond = -velocity });
            Vec3 slant = Illumination.SeenFrom(-velocity).Direction;
            UnitWrench d = 0.5 / (direction == 0 ? slant.X : slant.Y) * (plus - minus);
            Span<double> eight = v.Slice(8 * direction, 8);
            (eight[0], eight[1], eight[2]) = (d.Force.X, d.Force.Y, d.Force.Z);
            (eight[3], eight[4], eight[5]) = (d.Torque.X, d.Torque.Y, d.Torque.Z);
            (eight[6], eight[7]) = (d.Power, d.Absorbed);
        }
    }

    private double Miss(AtlasScene scene, int threads)
    {
        double[] misses = new double[160];
        Parallel.For(
            0,
            misses.Length,
            new ParallelOptions { MaxDegreeOfParallelism = threads },
            n =>
            {
                (double offset, double lean, double w) = AtlasProof.Point(1000 + n);
                double azimuth = 2 * Math.PI * w;
                Span<double> exact = stackalloc double[Lanes];
                Span<double> found = stackalloc double[Lanes];
                Exact(scene, offset, lean, azimuth, exact);
                Values(found, offset, scene.IsBall ? 0 : lean, Math.Cos(azimuth), Math.Sin(azimuth));
                double force = scene.Unit(scene.Pose(offset, lean, azimuth)).Force.Length;
                for (int lane = 0; lane < Lanes; lane++)
                {
                    bool isTorque = lane % 8 is >= 3 and <= 5;
                    double size = force * (isTorque ? scene.ReachMetres : 1);
                    misses[n] = Math.Max(misses[n], Math.Abs(exact[lane] - found[lane]) / size);
                }
            }
        );
        return misses.Max();
    }
}
