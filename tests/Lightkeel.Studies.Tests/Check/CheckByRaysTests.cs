using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Check;
using Lightkeel.Studies.Tests.Models;
using Xunit;

namespace Lightkeel.Studies.Tests.Check;

/// <summary>A check of a craft that light meets more than once.</summary>
public sealed class CheckByRaysTests
{
    private static CheckResult Of(string halfAngle, string engine = "auto") =>
        new CheckStudy().Run(
            new(
                Craft.Open(Craft.Cone.Replace("65 deg", halfAngle, StringComparison.Ordinal)),
                engine,
                WithMargins: false,
                WithSpin: false
            ),
            new StudyContext()
        );

    [Fact]
    public void NarrowCone_UnderAuto_IsTracedAndSaysSo()
    {
        CheckResult r = Of("40 deg");
        Assert.Equal("rays", r.Engine);
        Assert.Equal("several-meetings", r.LightRegime);
        // Two bounces turn light by 4a: F = (1 - cos 4a) of the light met over c, a direct derivation (docs/theory/rays.md).
        double expected = (1 - Math.Cos(4 * 40 * Math.PI / 180)) * r.InterceptedWatts / 299_792_458.0;
        Assert.Equal(expected, r.ThrustNewtons, 1e-8 * expected);
    }

    [Fact]
    public void WideCone_UnderAutoOrRays_GivesTheSameJacobian()
    {
        CheckResult summed = Of("65 deg");
        CheckResult traced = Of("65 deg", "rays");
        Assert.Equal("surface quadrature", summed.Engine);
        Assert.Equal("rays", traced.Engine);
        Assert.Equal("proven", traced.LightRegime);
        for (int i = 0; i < 4; i++)
        {
            for (int j = 0; j < 4; j++)
            {
                Assert.Equal(summed.Jacobian[i][j], traced.Jacobian[i][j], 1e-7 * Math.Abs(summed.Jacobian[3][3]));
            }
        }
    }
}
