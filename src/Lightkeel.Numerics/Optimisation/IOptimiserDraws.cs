namespace Lightkeel.Numerics.Optimisation;

/// <summary>Random numbers that an optimiser asks for by address, so that a search can be told again to the same bits.</summary>
public interface IOptimiserDraws
{
    /// <summary>A uniform draw in the open interval (0, 1).</summary>
    /// <param name="step">Number of the step; every step has its own draws.</param>
    /// <param name="draw">Number of the draw in it.</param>
    double Uniform(long step, int draw);

    /// <summary>A standard normal draw.</summary>
    /// <param name="step">Number of the step.</param>
    /// <param name="draw">Number of the draw in it.</param>
    double Normal(long step, int draw);
}
