using Lightkeel.Numerics.Interpolation;
using Lightkeel.Physics.Pressure;

namespace Lightkeel.Physics.Limits.Mission;

/// <summary>Axial force and met power of a craft on the axis against the size of the beam, at rest and nominal power.</summary>
/// <remarks>
/// Chebyshev series in the inverse of the size, of what is left after dividing by its square: smooth down to a beam
/// that is wide and even over the craft. Points are doubled until the last coefficients are below the asked accuracy.
/// </remarks>
public sealed class ScaledThrust
{
    private const int FewestPoints = 9;
    private const int MostPoints = 65;
    private readonly ChebyshevSeries? _force;
    private readonly ChebyshevSeries? _met;
    private readonly (double Force, double Met) _designed;

    private ScaledThrust((double, double) designed, ChebyshevSeries? force, ChebyshevSeries? met) =>
        (_designed, _force, _met) = (designed, force, met);

    /// <summary>Fits the two.</summary>
    /// <param name="engine">The light pressure.</param>
    /// <param name="pose">The pose at rest, on the axis or at the trim.</param>
    /// <param name="largestScale">Largest size over the designed size, ≥ 1.</param>
    /// <param name="accuracy">Relative accuracy.</param>
    /// <exception cref="PressureUnavailableException">A size cannot be computed.</exception>
    /// <exception cref="ArithmeticException">The series did not reach the accuracy.</exception>
    public static ScaledThrust Of(IPressureEngine engine, CraftPose pose, double largestScale, double accuracy)
    {
        ArgumentNullException.ThrowIfNull(engine);
        PressureReading designed = engine.Evaluate(pose with { BeamScale = 1 });
        (double, double) at = (designed.ForceNewtons.Z, designed.InterceptedWatts);
        if (!(largestScale > 1))
        {
            return new(at, null, null);
        }
        double start = 1 / largestScale;
        for (int count = FewestPoints; count <= MostPoints; count = 2 * count - 1)
        {
            double[] points = ChebyshevSeries.Points(start, 1, count);
            PressureReading[] readings = [.. points.Select(u => engine.Evaluate(pose with { BeamScale = 1 / u }))];
            ChebyshevSeries force = Through(readings, r => r.ForceNewtons.Z);
            ChebyshevSeries met = Through(readings, r => r.InterceptedWatts);
            if (Tail(force) <= accuracy && Tail(met) <= accuracy)
            {
                return new(at, force, met);
            }

            ChebyshevSeries Through(PressureReading[] values, Func<PressureReading, double> value) =>
                ChebyshevSeries.Through(
                    start,
                    1,
                    values.Select((r, i) => value(r) / (points[i] * points[i])).ToArray()
                );
        }
        throw new ArithmeticException("The force did not settle as a series in the size of the beam.");
    }

    /// <summary>Axial force at a size of the beam, N.</summary>
    public double Force(double scale) => scale == 1 ? _designed.Force : Value(_force, _designed.Force, scale);

    /// <summary>Power that meets the craft at a size of the beam, W.</summary>
    public double Met(double scale) => scale == 1 ? _designed.Met : Value(_met, _designed.Met, scale);

    private static double Value(ChebyshevSeries? series, double designed, double scale)
    {
        double u = 1 / scale;
        return series is null ? designed : u * u * series.Value(Math.Max(u, series.Start));
    }

    private static double Tail(ChebyshevSeries series)
    {
        IReadOnlyList<double> c = series.Coefficients;
        double largest = c.Max(Math.Abs);
        return largest == 0 ? 0 : Math.Max(Math.Abs(c[^1]), Math.Max(Math.Abs(c[^2]), Math.Abs(c[^3]))) / largest;
    }
}
