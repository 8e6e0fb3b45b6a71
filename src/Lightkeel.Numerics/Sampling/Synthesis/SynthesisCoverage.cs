using System.Globalization;
using Lightkeel.Numerics.Sampling.Elementary;
using Lightkeel.Numerics.Sampling.Spectra;

namespace Lightkeel.Numerics.Sampling.Synthesis;

/// <summary>What of a spectrum a sampled record of given step and length can hold, and what it leaves out.</summary>
/// <remarks>Nothing is folded back: variance above the Nyquist frequency is left out of the record and reported here.</remarks>
public sealed record SynthesisCoverage
{
    private SynthesisCoverage() { }

    /// <summary>Time between samples, s.</summary>
    public required double StepSeconds { get; init; }

    /// <summary>Duration of one record, s.</summary>
    public required double RecordSeconds { get; init; }

    /// <summary>Half the sampling rate, Hz: the highest frequency in the record.</summary>
    public required double NyquistHertz { get; init; }

    /// <summary>Distance of the record's frequencies, Hz.</summary>
    public required double FrequencyStepHertz { get; init; }

    /// <summary>Variance of the spectrum over all frequencies.</summary>
    public required double TotalVariance { get; init; }

    /// <summary>Variance above the Nyquist frequency, which the record does not contain.</summary>
    public required double VarianceAboveNyquist { get; init; }

    /// <summary>Variance below half the frequency step, which the record holds as one constant.</summary>
    public required double VarianceHeldConstant { get; init; }

    /// <summary>The spectrum's finest detail, Hz; 0 when it has none.</summary>
    public required double FinestDetailHertz { get; init; }

    /// <summary>Variance of the record.</summary>
    public double RepresentedVariance => TotalVariance - VarianceAboveNyquist;

    /// <summary>Share of the variance that the record does not contain, 0 to 1.</summary>
    public double LostFraction => TotalVariance > 0 ? VarianceAboveNyquist / TotalVariance : 0;

    /// <summary>Share of the variance that the record holds as one constant, 0 to 1.</summary>
    public double ConstantFraction => TotalVariance > 0 ? VarianceHeldConstant / TotalVariance : 0;

    /// <summary>Works out the coverage.</summary>
    /// <param name="spectrum">The spectrum to be synthesised.</param>
    /// <param name="stepSeconds">Time between samples, s, above zero.</param>
    /// <param name="recordLength">Samples per record, at least 2.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static SynthesisCoverage Of(PowerSpectralDensity spectrum, double stepSeconds, int recordLength)
    {
        Require.Positive(stepSeconds);
        Require.AtLeast(2, recordLength);
        double nyquist = 0.5 / stepSeconds;
        double seconds = stepSeconds * recordLength;
        return new SynthesisCoverage
        {
            StepSeconds = stepSeconds,
            RecordSeconds = seconds,
            NyquistHertz = nyquist,
            FrequencyStepHertz = 1 / seconds,
            TotalVariance = spectrum.TotalVariance,
            VarianceAboveNyquist = spectrum.Variance(nyquist, double.PositiveInfinity),
            VarianceHeldConstant = spectrum.Variance(0, 0.5 / seconds),
            FinestDetailHertz = spectrum.FinestDetailHertz,
        };
    }

    /// <summary>Sentences for the user about what the record does not show; empty when all is well.</summary>
    /// <param name="allowedFraction">Share of the variance that may be lost or held constant without a word.</param>
    public IReadOnlyList<string> Warnings(double allowedFraction = 1e-3)
    {
        List<string> warnings = [];
        if (LostFraction > allowedFraction)
        {
            warnings.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{LostFraction:P2} of the noise variance lies above the Nyquist frequency {NyquistHertz:G4} Hz and "
                        + $"is left out; a shorter step than {StepSeconds:G4} s keeps it."
                )
            );
        }
        if (ConstantFraction > allowedFraction)
        {
            warnings.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{ConstantFraction:P2} of the noise variance lies below {FrequencyStepHertz / 2:G4} Hz and is held "
                        + $"constant over a record; a longer record than {RecordSeconds:G4} s resolves it."
                )
            );
        }
        if (FinestDetailHertz > 0 && FinestDetailHertz < 4 * FrequencyStepHertz)
        {
            warnings.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"The spectrum changes within {FinestDetailHertz:G4} Hz, but frequencies are {FrequencyStepHertz:G4} "
                        + $"Hz apart: use records of {4 / FinestDetailHertz:G4} s or longer to show its shape."
                )
            );
        }
        return warnings;
    }
}
