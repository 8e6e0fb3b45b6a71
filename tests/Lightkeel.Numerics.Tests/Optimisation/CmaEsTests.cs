using Lightkeel.Numerics.Optimisation;
using Xunit;

namespace Lightkeel.Numerics.Tests.Optimisation;

public sealed class CmaEsTests
{
    private static SearchVariable[] Free(int n) =>
        [.. Enumerable.Repeat(SearchVariable.Real(double.NegativeInfinity, double.PositiveInfinity), n)];

    private static int EvaluationsTo(Func<double[], double> f, double[] start, double sigma, double target, ulong seed)
    {
        CmaEs run = new(Free(start.Length), CmaEsSettings.For(start.Length), start, sigma, new TestDraws(seed));
        int count = 0;
        while (run.Ask() is { Count: > 0 } asked)
        {
            double[] values = [.. asked.Select(f)];
            int hit = Array.FindIndex(values, v => v < target);
            if (hit >= 0)
            {
                return count + hit + 1;
            }
            count += values.Length;
            run.Tell([.. values.Select(v => new Outcome([v]))]);
        }
        return int.MaxValue;
    }

    // The CMA Evolution Strategy: A Tutorial, arXiv:1604.00772 (2023), Table 1, evaluated for n = 10.
    [Fact]
    public void Defaults_OfTenVariables_AreThePublishedOnes()
    {
        CmaEsSettings s = CmaEsSettings.For(10);
        Assert.Equal((10, 5), (s.Lambda, s.Mu));
        Assert.Equal(3.1672992814107, s.MuEffective, 1e-8);
        Assert.Equal(0.28442858794637, s.CumulationSigma, 1e-8);
        Assert.Equal(1.2844285879464, s.DampingSigma, 1e-8);
        Assert.Equal(0.29499038303562, s.CumulationCovariance, 1e-8);
        Assert.Equal(0.015283824524752, s.RankOneRate, 1e-8);
        Assert.Equal(0.023551776650417, s.RankMuRate, 1e-8);
        Assert.Equal(1, s.Weights.Take(s.Mu).Sum(), 1e-14);
    }

    // Medians of 41 seeds of a general-purpose reference implementation (Debian package python3-cmaes): 1629, within 15 %.
    [Fact]
    public void Sphere_OfTenVariables_TakesTheEvaluationsOfTheReference()
    {
        double[] start = [.. Enumerable.Repeat(1.0, 10)];
        int[] counts =
        [
            .. Enumerable.Range(1, 41).Select(s => EvaluationsTo(Problems.Sphere, start, 0.5, 1e-10, (ulong)s)),
        ];
        Assert.InRange(counts.Order().ElementAt(20), 1629 * 0.85, 1629 * 1.15);
    }

    // The same: 5359, within 15 %.
    [Fact]
    public void Rosenbrock_OfTenVariables_TakesTheEvaluationsOfTheReference()
    {
        int[] counts =
        [
            .. Enumerable
                .Range(1, 41)
                .Select(s => EvaluationsTo(Problems.Rosenbrock, new double[10], 0.5, 1e-10, (ulong)s)),
        ];
        Assert.InRange(counts.Order().ElementAt(20), 5359 * 0.85, 5359 * 1.15);
    }

    [Fact]
    public void Bipop_Rastrigin_FindsTheGlobalMinimum()
    {
        SearchVariable[] variables = [.. Enumerable.Repeat(SearchVariable.Real(-5, 5), 5)];
        BipopCmaEs search = new(variables, [3, 3, 3, 3, 3], 2, new TestDraws(4));
        double best = double.PositiveInfinity;
        for (int count = 0; count < 100_000 && best > 1e-8; )
        {
            IReadOnlyList<double[]> asked = search.Ask();
            Assert.All(asked, x => Assert.All(x, v => Assert.InRange(v, -5, 5)));
            double[] values = [.. asked.Select(Problems.Rastrigin)];
            best = Math.Min(best, values.Min());
            count += values.Length;
            search.Tell([.. values.Select(v => new Outcome([v]))]);
        }
        Assert.True(search.Restarts > 0);
        Assert.InRange(best, 0, 1e-8);
    }

    // The minimum of a sphere on the bound x >= 1 of each variable lies in the corner.
    [Fact]
    public void Bounds_MinimumOutside_EndsInTheCorner()
    {
        SearchVariable[] variables = [.. Enumerable.Repeat(SearchVariable.Real(1, 3), 4)];
        CmaEs run = new(variables, CmaEsSettings.For(4), [2, 2, 2, 2], 0.6, new TestDraws(2));
        double best = double.PositiveInfinity;
        for (int g = 0; g < 400 && run.Ask() is { Count: > 0 } asked; g++)
        {
            best = Math.Min(best, asked.Min(Problems.Sphere));
            run.Tell([.. asked.Select(x => new Outcome([Problems.Sphere(x)]))]);
        }
        Assert.Equal(4, best, 1e-6);
    }

    // A sphere under x + y >= 1 has its minimum 0.5 at (0.5, 0.5).
    [Fact]
    public void Limits_Violated_ComeBehindAllThatHold()
    {
        SearchVariable[] variables = [SearchVariable.Real(-2, 2), SearchVariable.Real(-2, 2)];
        CmaEs run = new(variables, CmaEsSettings.For(2), [-1, -1], 0.5, new TestDraws(6));
        double best = double.PositiveInfinity;
        for (int g = 0; g < 300 && run.Ask() is { Count: > 0 } asked; g++)
        {
            Outcome[] outcomes =
            [
                .. asked.Select(x => new Outcome([Problems.Sphere(x)], Math.Max(0, 1 - x[0] - x[1]))),
            ];
            best = Math.Min(best, outcomes.Where(o => o.IsFeasible).Select(o => o.Aims[0]).DefaultIfEmpty(best).Min());
            run.Tell(outcomes);
        }
        Assert.InRange(best, 0.5, 0.505);
    }
}
