using Lightkeel.Numerics.Sampling.Designs;
using Lightkeel.Numerics.Sampling.Draws;
using Lightkeel.Numerics.Sampling.Sensitivity;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Sensitivity;

public class SobolIndicesTests
{
    private static readonly RandomDraws s_draws = new(6, 0, "test.sensitivity");

    // Ishigami function sin x1 + 7 sin² x2 + 0.1 x3⁴ sin x1 on (-π, π)³: First International Symposium on Uncertainty
    // Modeling and Analysis, 398 (1990), doi:10.1109/ISUMA.1990.151285; indices in closed form.
    [Fact]
    public void Estimate_OfTheIshigamiFunction_AgreesWithClosedForms()
    {
        SensitivityDesign design = new(4096, new SobolSequence(6, s_draws));
        SobolIndices indices = SobolIndices.Estimate(design, Ishigami(design), s_draws, 0.95, 200);
        Near.Absolute(3.5, indices.Mean, 0.01);
        Near.Relative(13.844587940719, indices.Variance, 0.005);
        double[] first = [0.31390519114781, 0.44241114479004, 0];
        double[] total = [0.55758885520996, 0.44241114479004, 0.24368366406215];
        for (int i = 0; i < 3; i++)
        {
            SensitivityIndex input = indices.Inputs[i];
            Near.Absolute(first[i], input.FirstOrder, 0.01);
            Near.Absolute(total[i], input.Total, 0.01);
            Assert.True(input.FirstOrderInterval.Contains(first[i]));
            Assert.True(input.TotalInterval.Contains(total[i]));
        }
    }

    // Property: the bootstrap interval of independent points holds the true index about as often as it says. 60 repeats at 90 %:
    // the binomial chance of fewer than 46 is below 1e-3.
    [Fact]
    public void Intervals_OfIndependentPoints_HoldTheTruthAsOftenAsStated()
    {
        int held = 0;
        for (ulong run = 0; run < 60; run++)
        {
            RandomDraws draws = s_draws with { Ride = run + 1 };
            SensitivityDesign design = new(256, new IndependentPoints(6, draws));
            SobolIndices indices = SobolIndices.Estimate(design, Ishigami(design), draws with { Source = 1 }, 0.9, 100);
            held += indices.Inputs[0].TotalInterval.Contains(0.55758885520996) ? 1 : 0;
        }
        Assert.InRange(held, 46, 60);
    }

    // Closed form: for a sum of independent inputs, first order and total are the shares of variance, here 1/5 and 4/5.
    [Fact]
    public void Estimate_OfASum_HasNoInteractions()
    {
        SensitivityDesign design = new(1024, new SobolSequence(4, s_draws));
        double[] outputs = new double[design.RowCount];
        double[] x = new double[2];
        for (long row = 0; row < outputs.Length; row++)
        {
            design.Row(row, x);
            outputs[row] = 1e6 + x[0] + 2 * x[1];
        }
        SobolIndices indices = SobolIndices.Estimate(design, outputs, s_draws, 0.95, 100);
        Near.Absolute(0.2, indices.Inputs[0].FirstOrder, 2e-3);
        Near.Absolute(0.8, indices.Inputs[1].FirstOrder, 2e-3);
        Near.Absolute(0.2, indices.Inputs[0].Total, 2e-3);
        Near.Absolute(0.8, indices.Inputs[1].Total, 2e-3);
    }

    [Fact]
    public void Estimate_OfBadOutputs_Refuses()
    {
        SensitivityDesign design = new(8, new SobolSequence(4, s_draws));
        double[] outputs = new double[design.RowCount];
        Assert.Throws<ArgumentException>(() => SobolIndices.Estimate(design, outputs, s_draws));
        Assert.Throws<ArgumentException>(() => SobolIndices.Estimate(design, outputs.AsSpan(1), s_draws));
        outputs[3] = double.NaN;
        Assert.Throws<ArgumentOutOfRangeException>(() => SobolIndices.Estimate(design, outputs, s_draws));
        Assert.Throws<ArgumentException>(() => new SensitivityDesign(8, new SobolSequence(3)));
        Assert.Throws<ArgumentException>(() => design.Row(32, new double[2]));
    }

    private static double[] Ishigami(SensitivityDesign design)
    {
        double[] outputs = new double[design.RowCount];
        double[] x = new double[3];
        for (long row = 0; row < outputs.Length; row++)
        {
            design.Row(row, x);
            double x1 = Math.PI * (2 * x[0] - 1);
            double x2 = Math.PI * (2 * x[1] - 1);
            double x3 = Math.PI * (2 * x[2] - 1);
            outputs[row] = Math.Sin(x1) + 7 * Math.Pow(Math.Sin(x2), 2) + 0.1 * Math.Pow(x3, 4) * Math.Sin(x1);
        }
        return outputs;
    }
}
