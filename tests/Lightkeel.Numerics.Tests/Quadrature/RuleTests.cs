using Lightkeel.Numerics.Quadrature;
using Xunit;

namespace Lightkeel.Numerics.Tests.Quadrature;

public sealed class RuleTests
{
    public static TheoryData<int> Pairs => [.. Enumerable.Range(0, GaussKronrod.All.Count)];

    [Theory, MemberData(nameof(Pairs))]
    public void KronrodPair_OnMonomials_IsExactToItsDegree(int index)
    {
        // A Kronrod extension of n Gauss points is exact to degree 3n + 1, the Gauss rule to 2n − 1 (QUADPACK, 1983, §2.3).
        GaussKronrod pair = GaussKronrod.All[index];
        int n = (pair.Count - 1) / 2;
        for (int degree = 0; degree <= 3 * n + 1; degree++)
        {
            double exact = degree % 2 == 0 ? 2.0 / (degree + 1) : 0;
            Assert.Equal(exact, Apply(pair.Nodes, pair.KronrodWeights, degree), 1e-14);
            if (degree <= 2 * n - 1)
            {
                Assert.Equal(exact, Apply(pair.Nodes, pair.GaussWeights, degree), 1e-14);
            }
        }
    }

    [Fact]
    public void KronrodPair_OfFifteen_HasThePublishedNodes()
    {
        // Abscissa 1 and weight 1 of the 7-15 pair, QUADPACK (Springer, 1983), routine qk15; digits from memory.
        GaussKronrod pair = GaussKronrod.All[0];
        Assert.Equal(0.991455371120812639206854697526329, pair.Nodes[^1], 1e-16);
        Assert.Equal(0.022935322010529224963732008058970, pair.KronrodWeights[^1], 1e-16);
    }

    [Fact]
    public void GaussLegendre_OfFivePoints_HasTheHandbookValues()
    {
        // Abramowitz & Stegun, Handbook of Mathematical Functions, table 25.4, n = 5.
        GaussLegendre rule = GaussLegendre.Order(5);
        Assert.Equal(0.906179845938664, rule.Nodes[^1], 1e-15);
        Assert.Equal(0.236926885056189, rule.Weights[^1], 1e-15);
        Assert.Equal(0.568888888888889, rule.Weights[2], 1e-15);
    }

    private static double Apply(ReadOnlySpan<double> nodes, ReadOnlySpan<double> weights, int degree)
    {
        double sum = 0;
        for (int i = 0; i < nodes.Length; i++)
        {
            sum += weights[i] * Math.Pow(nodes[i], degree);
        }
        return sum;
    }
}
