using System.Numerics;
using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Synthesis;
using MathNet.Numerics.IntegralTransforms;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Synthesis;

public class RealFourierTransformTests
{
    // Against the complex transform of MathNet.Numerics 5.0.0 (no scaling).
    [Theory]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(8)]
    [InlineData(16)]
    [InlineData(512)]
    [InlineData(4096)]
    public void Forward_AgreesWithReferenceLibrary(int length)
    {
        double[] record = Record(length);
        Complex[] expected = Array.ConvertAll(record, x => new Complex(x, 0));
        Fourier.Forward(expected, FourierOptions.AsymmetricScaling);
        RealFourierTransform transform = new(length);
        Complex[] spectrum = new Complex[transform.SpectrumLength];
        transform.Forward(record, spectrum);
        for (int k = 0; k < spectrum.Length; k++)
        {
            Near.Absolute(0, (spectrum[k] - expected[k]).Magnitude, 4e-15 * Math.Sqrt(length) * Math.Log2(2 * length));
        }
    }

    [Theory]
    [InlineData(2)]
    [InlineData(32)]
    [InlineData(64)]
    [InlineData(8192)]
    public void Inverse_OfForward_IsTheRecord(int length)
    {
        double[] record = Record(length);
        RealFourierTransform transform = new(length);
        Complex[] spectrum = new Complex[transform.SpectrumLength];
        double[] back = new double[length];
        transform.Forward(record, spectrum);
        transform.Inverse(spectrum, back);
        for (int n = 0; n < length; n++)
        {
            Near.Absolute(record[n], back[n], 4e-15);
        }
    }

    [Fact]
    public void Transform_OfOtherLengths_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new RealFourierTransform(1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new RealFourierTransform(12));
        Assert.Throws<ArgumentException>(() => new RealFourierTransform(8).Forward(new double[8], new Complex[8]));
    }

    private static double[] Record(int length)
    {
        double[] record = new double[length];
        new RandomDraws(1, 0, "test.fft").FillNormal((ulong)length, record);
        return record;
    }
}
