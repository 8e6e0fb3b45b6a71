using Lightkeel.Physics.Pressure;
using Lightkeel.Studies.Check;
using Lightkeel.Studies.Models;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Check;

/// <summary>Margins and sensitivities, against root finding and scaling laws that share no code with them.</summary>
public sealed class CheckMarginTests
{
    public static TheoryData<string> Samples => [.. Craft.SampleFiles];

    [Theory, MemberData(nameof(Samples))]
    public void EveryMarginOfASample_SeparatesTheTwoVerdictsThatItNames(string file)
    {
        OpenedDesign design = Craft.Open(Craft.Sample(file));
        CheckResult r = Craft.CheckedSample(file);
        int sides = 0;
        foreach (CheckedMargin m in r.Margins)
        {
            sides += Separates(design, m, m.LowerSi, -1, r.Verdict, m.LowerVerdict);
            sides += Separates(design, m, m.UpperSi, 1, r.Verdict, m.UpperVerdict);
        }
        Assert.True(sides >= 2, $"{file}: only {sides} margins");
    }

    private static int Separates(
        OpenedDesign design,
        CheckedMargin margin,
        double? change,
        int side,
        string present,
        string? becomes
    )
    {
        if (change is not { } at)
        {
            return 0;
        }
        double step = side * 1e-4 * Math.Abs(at - margin.ValueSi);
        string inside = Craft.CheckAt(design, margin.Path, at - step, 1e-9).Verdict;
        string beyond = VerdictAt(design, margin.Path, at + step);
        // Close to a change the accuracy may not decide, and right behind it light may begin to bounce twice.
        bool blurred = inside == "undecided" && beyond == "undecided";
        Assert.True(inside == present || blurred, $"{margin.Path} to {at}: {inside}, not {present}");
        Assert.True(beyond == becomes || beyond is "undecided" or "none", $"{margin.Path}: {beyond}, not {becomes}");
        Assert.NotEqual(present, beyond);
        return 1;
    }

    private static string VerdictAt(OpenedDesign design, string path, double value)
    {
        try
        {
            return Craft.CheckAt(design, path, value, 1e-9).Verdict;
        }
        catch (PressureUnavailableException)
        {
            return "none";
        }
    }

    [Theory]
    [InlineData("tern-c.toml", "sail.canopy.half_angle", 1.15, 1.3)]
    [InlineData("tern-c.toml", "mass.bus.at.z", -4.5, -3.0)]
    [InlineData("tern-c.toml", "mass.bus.mass", 0.0003, 0.0012)]
    [InlineData("tern.toml", "beam.radius", 0.6, 1.0)]
    [InlineData("shearwater.toml", "beam.waist", 0.81, 1.0)]
    [InlineData("bench.toml", "sail.cone.thickness", 9.1e-6, 2e-5)]
    public void Margin_AgreesWithPlainBisectionOfTheVerdict(string file, string path, double low, double high)
    {
        OpenedDesign design = Craft.Open(Craft.Sample(file));
        CheckedMargin margin = Craft.CheckedSample(file).Margins.Single(m => m.Path == path);
        bool upward = low > margin.ValueSi;
        bool Rides(double value) => Craft.CheckAt(design, path, value).Rides;
        Assert.NotEqual(Rides(low), Rides(high));
        bool atLow = Rides(low);
        for (int i = 0; i < 30; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = Rides(middle) == atLow ? (middle, high) : (low, middle);
        }
        double found = (upward ? margin.UpperSi : margin.LowerSi)!.Value;
        Assert.Equal(low, found, 1e-6 * Math.Abs(low));
        Assert.Equal(
            Math.Min(
                margin.LowerSi is { } l ? Math.Abs(l - margin.ValueSi) : double.MaxValue,
                margin.UpperSi is { } u ? Math.Abs(u - margin.ValueSi) : double.MaxValue
            ) / Math.Abs(margin.ValueSi),
            margin.RelativeMarginFraction!.Value,
            1e-12
        );
    }

    [Theory, MemberData(nameof(Samples))]
    public void Frequency_ByPower_IsHalfOfFrequencyOverPower(string file)
    {
        CheckResult r = Craft.CheckedSample(file);
        CheckedMargin power = r.Margins.Single(m => m.Path == "beam.power");

        Assert.Null(power.LowerSi);
        Assert.Null(power.UpperSi);
        Assert.Null(power.RelativeMarginFraction);
        Assert.Equal(r.Modes.Count, power.Modes.Count);
        Assert.All(
            r.Modes.Zip(power.Modes),
            pair =>
            {
                double expected = pair.First.FrequencyHertz / (2 * power.ValueSi);
                Assert.Equal(expected, pair.Second.FrequencyHertzPerUnit!.Value, 1e-7 * expected);
                Assert.Equal(0, pair.Second.GrowthPerSecondPerUnit!.Value);
            }
        );
    }

    [Fact]
    public void FrequencyOfABall_ByItsArealDensity_IsMinusHalfOfTheirRatio()
    {
        CheckResult r = Craft.Check(
            Craft.Open(Craft.Ball, ("beam.profile", "ring"), ("beam.radius", "1 m"), ("beam.width", "0.4 m")),
            1e-10,
            margins: true
        );
        CheckedMargin density = r.Margins.Single(m => m.Path == "sail.canopy.areal_density");
        double expected = -r.Modes[0].FrequencyHertz / (2 * density.ValueSi);
        Assert.Equal(expected, density.Modes[0].FrequencyHertzPerUnit!.Value, 1e-7 * Math.Abs(expected));
    }

    [Fact]
    public void Frequency_ByAnyNumber_IsItsRichardsonDifference()
    {
        OpenedDesign design = Craft.Open(Craft.Sample("shearwater.toml"));
        CheckResult r = Craft.CheckedSample("shearwater.toml");
        foreach (CheckedMargin m in r.Margins.Where(m => m.ValueSi != 0))
        {
            double step = 1e-3 * Math.Abs(m.ValueSi);
            double[] Difference(double h)
            {
                double[] up = Frequencies(m.ValueSi + h);
                double[] down = Frequencies(m.ValueSi - h);
                return [.. up.Zip(down, (a, b) => (a - b) / (2 * h))];
            }
            double[] Frequencies(double value)
            {
                CheckResult at = Craft.CheckAt(design, m.Path, value, 1e-11);
                return [.. at.Modes.Select(mode => mode.FrequencyHertz).Order()];
            }
            if (m.Path.EndsWith(".x", StringComparison.Ordinal) || Splits(m))
            {
                continue;
            }
            double[] wide = Difference(step);
            double[] close = Difference(0.5 * step);
            double[] expected = [.. close.Zip(wide, (c, w) => (4 * c - w) / 3)];
            double[] found =
            [
                .. r
                    .Modes.Zip(m.Modes)
                    .OrderBy(p => p.First.FrequencyHertz)
                    .Select(p => p.Second.FrequencyHertzPerUnit!.Value),
            ];
            Assert.All(
                expected.Zip(found),
                pair => Assert.Equal(pair.First, pair.Second, 1e-5 * (1 / Math.Abs(m.ValueSi) + Math.Abs(pair.First)))
            );
        }

        bool Splits(CheckedMargin m) => m.Modes.Any(s => s.FrequencyHertzPerUnit is null);
    }
}
