using Lightkeel.Numerics.LinearAlgebra;
using Xunit;

namespace Lightkeel.Numerics.Tests.LinearAlgebra;

public sealed class SymmetricPencilTests
{
    // A string of linear elements: K x = λ M x has λ_k = 6/h² (1 − cos kπh)/(2 + cos kπh) (any text on finite elements; eigenvectors are sines).
    [Fact]
    public void StringOfElements_HasItsClosedSpectrum()
    {
        const int N = 30;
        const double H = 1.0 / (N + 1);
        double[,] k = new double[N, N];
        double[,] m = new double[N, N];
        for (int i = 0; i < N; i++)
        {
            (k[i, i], m[i, i]) = (2 / H, 4 * H / 6);
            if (i > 0)
            {
                (k[i, i - 1], m[i, i - 1]) = (-1 / H, H / 6);
            }
        }
        double[] values = SymmetricPencil.Values(k, m);
        for (int i = 1; i <= N; i++)
        {
            double c = Math.Cos(i * Math.PI * H);
            Assert.Equal(6 / (H * H) * (1 - c) / (2 + c), values[i - 1], 1e-9);
        }
    }

    [Fact]
    public void WrongMatrices_AreRefused()
    {
        Assert.Throws<ArgumentException>(() => SymmetricPencil.Values(new double[2, 3], new double[2, 2]));
        Assert.Throws<ArgumentException>(() => SymmetricPencil.Values(new double[2, 2], new double[2, 2]));
    }
}
