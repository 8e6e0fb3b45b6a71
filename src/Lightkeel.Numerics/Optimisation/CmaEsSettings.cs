namespace Lightkeel.Numerics.Optimisation;

/// <summary>The strategy parameters of a covariance matrix adaptation, by their published defaults.</summary>
/// <remarks>
/// Source: The CMA Evolution Strategy: A Tutorial, arXiv:1604.00772 (version of 2023), Table 1, with the negative weights
/// of its active update.
/// </remarks>
public sealed record CmaEsSettings
{
    private CmaEsSettings(int dimension, int lambda)
    {
        double n = dimension;
        Dimension = dimension;
        Lambda = lambda;
        Mu = lambda / 2;
        double[] raw = [.. Enumerable.Range(1, lambda).Select(i => Math.Log((lambda + 1) / 2.0) - Math.Log(i))];
        (MuEffective, double[] positive) = Effective(raw.Take(Mu));
        (double muMinus, _) = Effective(raw.Skip(Mu));
        CumulationSigma = (MuEffective + 2) / (n + MuEffective + 5);
        DampingSigma = 1 + 2 * Math.Max(0, Math.Sqrt((MuEffective - 1) / (n + 1)) - 1) + CumulationSigma;
        CumulationCovariance = (4 + MuEffective / n) / (n + 4 + 2 * MuEffective / n);
        RankOneRate = 2 / ((n + 1.3) * (n + 1.3) + MuEffective);
        RankMuRate = Math.Min(
            1 - RankOneRate,
            2 * (0.25 + MuEffective + 1 / MuEffective - 2) / ((n + 2) * (n + 2) + MuEffective)
        );
        Weights = [.. positive, .. Negative(raw, muMinus, n)];
    }

    /// <summary>Number of variables, n.</summary>
    public int Dimension { get; }

    /// <summary>Candidates a generation, λ.</summary>
    public int Lambda { get; }

    /// <summary>Parents, μ.</summary>
    public int Mu { get; }

    /// <summary>Variance-effective selection mass.</summary>
    public double MuEffective { get; }

    /// <summary>Cumulation of the step-size path, c_σ.</summary>
    public double CumulationSigma { get; }

    /// <summary>Damping of the step size, d_σ.</summary>
    public double DampingSigma { get; }

    /// <summary>Cumulation of the covariance path, c_c.</summary>
    public double CumulationCovariance { get; }

    /// <summary>Learning rate of the rank-one update, c_1.</summary>
    public double RankOneRate { get; }

    /// <summary>Learning rate of the rank-μ update, c_μ.</summary>
    public double RankMuRate { get; }

    /// <summary>Recombination weights of all candidates, best first: those of the parents sum to one, the others are negative or zero.</summary>
    public IReadOnlyList<double> Weights { get; }

    /// <summary>The usual number of candidates a generation.</summary>
    public static int UsualLambda(int dimension) => 4 + (int)Math.Floor(3 * Math.Log(Require.AtLeast(1, dimension)));

    /// <summary>The defaults.</summary>
    /// <param name="dimension">Number of variables, 1 or more.</param>
    /// <param name="lambda">Candidates a generation, 4 or more; 0 for the usual number.</param>
    public static CmaEsSettings For(int dimension, int lambda = 0) =>
        new(Require.AtLeast(1, dimension), Require.AtLeast(4, lambda == 0 ? UsualLambda(dimension) : lambda));

    private static (double Mass, double[] Normed) Effective(IEnumerable<double> weights)
    {
        double[] all = [.. weights];
        double sum = all.Sum();
        double mass = sum * sum / all.Sum(w => w * w);
        return (mass, [.. all.Select(w => w / sum)]);
    }

    private IEnumerable<double> Negative(double[] raw, double muMinus, double n)
    {
        double alphaMu = 1 + RankOneRate / RankMuRate;
        double alphaMass = 1 + 2 * muMinus / (MuEffective + 2);
        double alphaDefinite = (1 - RankOneRate - RankMuRate) / (n * RankMuRate);
        double size = Math.Min(alphaMu, Math.Min(alphaMass, alphaDefinite));
        double[] rest = [.. raw.Skip(Mu)];
        double sum = -rest.Where(w => w < 0).Sum();
        return rest.Select(w => w >= 0 ? 0 : size * w / sum);
    }
}
