using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Xunit;

namespace Lightkeel.Physics.Tests.Stability;

/// <summary>Expected trims are solved by hand from the closed form of <see cref="LeaningWell"/>.</summary>
public sealed class LateralTrimTests
{
    private static readonly TrimSearch Search = new(SizeMetres: 1, LargestOffsetMetres: 3);

    [Fact]
    public void CentredWell_FromTheAxis_IsTrimmedAtOnce()
    {
        LateralTrim trim = LateralTrim.Find(new LeaningWell { C = 0.4, G = 0.3 }, Search);

        Assert.True(trim.Found);
        Assert.False(trim.IsDisplaced);
        Assert.Equal(0, trim.Iterations);
        Assert.Equal(0, trim.FreeDirections);
    }

    [Fact]
    public void LopsidedCraft_WithCoupledOffsetAndLean_IsTrimmedWhereBothBalance()
    {
        (double k, double c, double kappa, double g) = (2, 0.4, -1, 0.3);
        LeaningWell engine = new()
        {
            K = k,
            C = c,
            Kappa = kappa,
            G = g,
            Length = 1e6,
            X0 = 0.2,
            LeanX0 = 0.05,
            LeanY0 = -0.1,
        };

        LateralTrim trim = LateralTrim.Find(engine, Search);

        Assert.True(trim.Found, trim.Summary);
        double x = (k * 0.2 + c * 0.05) / (k + c * g / kappa);
        double y = c * -0.1 / (k + c * g / kappa);
        Assert.Equal(x, trim.Pose!.Value.OffsetXMetres, 1e-12);
        Assert.Equal(y, trim.Pose!.Value.OffsetYMetres, 1e-12);
        Assert.Equal(0.05 - g * x / kappa, trim.Pose!.Value.BeamFromBody.Column2.X, 1e-12);
        Assert.Equal(-0.1 - g * y / kappa, trim.Pose!.Value.BeamFromBody.Column2.Y, 1e-12);
        Assert.Contains("m from the axis", trim.Summary, StringComparison.Ordinal);
    }

    [Fact]
    public void Ball_DisplacedWell_IsTrimmedByTheShortestStepWithItsTiltsLeftAlone()
    {
        LateralTrim trim = LateralTrim.Find(
            new LeaningWell
            {
                Kappa = 0,
                Length = 0.5,
                X0 = 0.3,
                Y0 = -0.2,
            },
            Search
        );

        Assert.True(trim.Found, trim.Summary);
        Assert.Equal(0.3, trim.Pose!.Value.OffsetXMetres, 1e-12);
        Assert.Equal(-0.2, trim.Pose!.Value.OffsetYMetres, 1e-12);
        Assert.Equal(0, trim.TiltRadians, 1e-15);
        Assert.Equal(2, trim.FreeDirections);
    }

    [Fact]
    public void ConstantSidewaysForce_StrongerThanTheWell_HasNoTrimAndSaysWhy()
    {
        LateralTrim trim = LateralTrim.Find(new LeaningWell { Length = 0.5, ConstantForce = 3 }, Search);

        Assert.False(trim.Found);
        Assert.Null(trim.Pose);
        Assert.EndsWith(".", trim.Summary, StringComparison.Ordinal);
    }

    [Fact]
    public void Well_BeyondTheSearchRadius_IsReportedAsOffTheBeam()
    {
        LateralTrim trim = LateralTrim.Find(new LeaningWell { Length = 1e6, X0 = 4 }, Search);

        Assert.False(trim.Found);
        Assert.Contains("left the beam", trim.Summary, StringComparison.Ordinal);
    }

    [Fact]
    public void Engine_ThatCannotCompute_IsQuoted()
    {
        LateralTrim trim = LateralTrim.Find(new LeaningWell { X0 = 2, FailsBeyond = 0.1 }, Search);

        Assert.False(trim.Found);
        Assert.Contains("the made-up engine ends here", trim.Summary, StringComparison.Ordinal);
    }

    [Fact]
    public void NoThrust_HasNothingToTrim()
    {
        LateralTrim trim = LateralTrim.Find(new LeaningWell { ThrustNewtons = 0 }, Search);

        Assert.False(trim.Found);
        Assert.Contains("no thrust", trim.Summary, StringComparison.Ordinal);
    }

    [Fact]
    public void Model_FromATrim_CarriesMassInertiaAndStiffness()
    {
        LeaningWell engine = new() { C = 0.4, G = 0.3 };
        MassProperties mass = new(2, Vec3.Zero, Mat3.Diagonal(0.9, 1.1, 1.6));

        LinearModel model = LinearModel.FromTrim(mass, engine, LateralTrim.Find(engine, Search));

        Assert.Equal(5, model.ThrustNewtons);
        Assert.Equal(-2, model.Jacobian[0][0]);
        Assert.Equal(0.4, model.Jacobian[0][3]);
        Assert.Equal(0.3, model.Jacobian[3][0]);
        Assert.Equal(1.1, model.InertiaKilogramSquareMetres.Row1.Y);
        Assert.Equal(StabilityVerdict.NeutrallyStable, StabilityAnalysis.Analyse(model).Verdict);
    }

    [Fact]
    public void Model_WithoutATrim_IsRefusedWithTheReason()
    {
        LeaningWell engine = new() { ThrustNewtons = 0 };
        MassProperties mass = new(2, Vec3.Zero, Mat3.Identity);

        ArgumentException error = Assert.Throws<ArgumentException>(() =>
            LinearModel.FromTrim(mass, engine, LateralTrim.Find(engine, Search))
        );

        Assert.Contains("no thrust", error.Message, StringComparison.Ordinal);
    }
}
