namespace Lightkeel.Numerics.Sampling.Estimation;

/// <summary>Data windows for spectral estimates.</summary>
public enum WindowKind
{
    /// <summary>No weighting: narrowest line, strongest leakage.</summary>
    Boxcar,

    /// <summary>Raised cosine: the usual choice for noise.</summary>
    Hann,

    /// <summary>Raised cosine on a pedestal (0.54, 0.46): lower first side lobe, slower decay.</summary>
    Hamming,

    /// <summary>Five-term flat top: amplitude of a line to 0.01 dB wherever it falls between bins.</summary>
    FlatTop,
}
