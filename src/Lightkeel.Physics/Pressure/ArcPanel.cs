namespace Lightkeel.Physics.Pressure;

/// <summary>A stretch of meridian between two events of the lit arc, under a substitution that lifts square-root ends.</summary>
/// <param name="Piece">Index of the smooth meridian piece.</param>
/// <param name="Start">Parameter at the start.</param>
/// <param name="End">Parameter at the end.</param>
/// <param name="RootAtStart">True when the arc's half-width has a square-root end at the start.</param>
/// <param name="RootAtEnd">The same at the end.</param>
internal readonly record struct ArcStretch(int Piece, double Start, double End, bool RootAtStart, bool RootAtEnd)
{
    /// <summary>Meridian parameter and its rate for the unit variable s in 0 … 1.</summary>
    public (double Parameter, double Rate) At(double s)
    {
        double width = End - Start;
        return (RootAtStart, RootAtEnd) switch
        {
            (true, true) => (Start + width * s * s * (3 - 2 * s), width * 6 * s * (1 - s)),
            (true, false) => (Start + width * s * s, width * 2 * s),
            (false, true) => (End - width * (1 - s) * (1 - s), width * 2 * (1 - s)),
            _ => (Start + width * s, width),
        };
    }
}

/// <summary>One panel over a stretch (s) and the lit arc (ξ in −1 … 1), with its answer and the errors of either direction.</summary>
/// <param name="Stretch">The stretch.</param>
/// <param name="S0">Start in s.</param>
/// <param name="S1">End in s.</param>
/// <param name="Xi0">Start in ξ.</param>
/// <param name="Xi1">End in ξ.</param>
internal readonly record struct ArcPanel(ArcStretch Stretch, double S0, double S1, double Xi0, double Xi1)
{
    /// <summary>Contribution of the panel; set once measured.</summary>
    public SurfaceAnswer Answer { get; init; }

    /// <summary>Vouched absolute error from the meridian direction.</summary>
    public double MeridianError { get; init; }

    /// <summary>Vouched absolute error from the azimuth direction.</summary>
    public double AzimuthError { get; init; }

    /// <summary>Vouched absolute error.</summary>
    public double Error => MeridianError + AzimuthError;

    /// <summary>Halves the panel in the direction, or both, that its error comes from.</summary>
    public IEnumerable<ArcPanel> Split()
    {
        double s = 0.5 * (S0 + S1);
        double xi = 0.5 * (Xi0 + Xi1);
        bool alongMeridian = MeridianError > 0.2 * AzimuthError;
        bool alongAzimuth = AzimuthError > 0.2 * MeridianError;
        if (alongMeridian && alongAzimuth)
        {
            yield return new(Stretch, S0, s, Xi0, xi);
            yield return new(Stretch, s, S1, Xi0, xi);
            yield return new(Stretch, S0, s, xi, Xi1);
            yield return new(Stretch, s, S1, xi, Xi1);
        }
        else if (alongMeridian)
        {
            yield return new(Stretch, S0, s, Xi0, Xi1);
            yield return new(Stretch, s, S1, Xi0, Xi1);
        }
        else
        {
            yield return new(Stretch, S0, S1, Xi0, xi);
            yield return new(Stretch, S0, S1, xi, Xi1);
        }
    }
}
