using Lightkeel.Numerics.Optimisation;
using Xunit;

namespace Lightkeel.Numerics.Tests.Optimisation;

public sealed class BoundedLbfgsTests
{
    private static double[] Gradient(Func<double[], double> f, double[] x)
    {
        double[] g = new double[x.Length];
        for (int i = 0; i < x.Length; i++)
        {
            double h = 1e-5 * Math.Max(1e-2, Math.Abs(x[i]));
            double At(double t) => f([.. x.Select((v, j) => j == i ? v + t : v)]);
            g[i] = (8 * (At(h) - At(-h)) - At(2 * h) + At(-2 * h)) / (12 * h);
        }
        return g;
    }

    private static BoundedLbfgs Run(
        Func<double[], double> f,
        double[] start,
        double low = double.NegativeInfinity,
        double high = double.PositiveInfinity
    )
    {
        double[] lower = [.. start.Select(_ => low)];
        double[] upper = [.. start.Select(_ => high)];
        BoundedLbfgs search = new(start, lower, upper, 1e-9);
        for (int i = 0; i < 5000 && search.EndReason is null; i++)
        {
            double[] x = search.Ask();
            search.Tell(f(x), Gradient(f, x));
        }
        return search;
    }

    // ACM Trans. Math. Softw. 7, 17 (1981), DOI 10.1145/355934.355936, digits by an independent least-squares solver.
    [Fact]
    public void BrownDennis_HasItsMinimum() =>
        Assert.Equal(85822.20163, Run(Problems.BrownDennis, [25, 5, -5, -1]).Value, 1e-2);

    [Fact]
    public void KowalikOsborne_HasItsMinimum() =>
        Assert.Equal(3.075056038e-4, Run(Problems.KowalikOsborne, [0.25, 0.39, 0.415, 0.39]).Value, 3e-10);

    [Fact]
    public void Bard_HasItsMinimum() => Assert.Equal(8.214877307e-3, Run(Problems.Bard, [1, 1, 1]).Value, 8e-9);

    [Fact]
    public void Watson_OfSixVariables_HasItsMinimum() =>
        Assert.Equal(2.287670053e-3, Run(Problems.Watson, new double[6]).Value, 2e-8);

    // Evol. Comput. 14, 119 (2006): the minimum beside the global one.
    [Fact]
    public void Rosenbrock_OfSixVariables_HasItsLocalMinimum()
    {
        BoundedLbfgs found = Run(Problems.Rosenbrock, [-1, 1, 1, 1, 1, 1]);
        Assert.Equal(3.97394, found.Value, 5e-5);
        Assert.Equal(-0.98657, found.Place[0], 1e-4);
    }

    // Closed form 10/(8 pi), and digits of the standard test set, computed independently.
    [Fact]
    public void Branin_HasItsMinimum() =>
        Assert.Equal(10 / (8 * Math.PI), Run(Problems.Branin, [3, 3], -5, 15).Value, 1e-10);

    [Fact]
    public void SixHumpCamel_HasItsMinimum() =>
        Assert.Equal(-1.031628453, Run(Problems.SixHumpCamel, [0.2, -0.6]).Value, 1e-8);

    [Fact]
    public void Michalewicz_OfTwoVariables_HasItsMinimum() =>
        Assert.Equal(-1.801303410, Run(Problems.Michalewicz, [2.1, 1.6], 0, Math.PI).Value, 1e-7);

    [Fact]
    public void StyblinskiTang_HasItsMinimumPerVariable() =>
        Assert.Equal(-3 * 39.16616570, Run(Problems.StyblinskiTang, [-2.5, -3, -3.5]).Value, 1e-6);

    [Fact]
    public void Schwefel_HasItsMinimum()
    {
        BoundedLbfgs found = Run(Problems.Schwefel, [410, 430], -500, 500);
        Assert.Equal(-2 * 418.9828873, found.Value, 1e-5);
        Assert.Equal(420.9687487, found.Place[0], 1e-4);
    }

    [Fact]
    public void Bounds_MinimumOutside_EndsOnThem()
    {
        BoundedLbfgs found = Run(Problems.Rosenbrock, [-1.5, -1.5], -2, 0.5);
        // On x = 0.5 the least value is at y = x^2: (1 - 0.5)^2.
        Assert.Equal(0.25, found.Value, 1e-8);
        Assert.Equal(0.5, found.Place[0]);
    }
}
