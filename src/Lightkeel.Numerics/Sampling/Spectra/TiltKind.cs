namespace Lightkeel.Numerics.Sampling.Spectra;

/// <summary>Which angle is called the tilt of a wavefront over a round aperture.</summary>
public enum TiltKind
{
    /// <summary>The plane that fits the phase best (Zernike tilt); its spectrum falls as f^(−17/3).</summary>
    Zernike,

    /// <summary>The mean gradient of the phase, what a centroid sees; its spectrum falls as f^(−11/3).</summary>
    Gradient,
}
