using Lightkeel.Numerics.Integration;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Shapes;
using Flight = Lightkeel.Physics.Motion.Ride;

namespace Lightkeel.Studies.Verify.Checks;

/// <summary>Light on moving craft, straight boosts, and the rotation that relativity adds to a curved path.</summary>
internal static class RelativityChecks
{
    private const double C = Scenes.LightSpeed;
    private const double Mass = 1e-3;
    private static readonly string[] BoostParts = ["emission / T", "time / T", "proper time / T", "distance / cT"];

    public static CheckModule Module() =>
        new("relativity", "Relativity and boost", [.. Light(), .. Boosts(), .. Accounts(), .. Paths()]);

    private static IEnumerable<OutsideCheck> Light() =>
        [
            new("REL-01", "Irradiance on a receding sail over that at rest", "beta = 0.2: (1 - beta)/(1 + beta)")
            {
                Source = Sources.Relativity,
                Origin = Origins.ClosedForm,
                Expected = [2.0 / 3],
                Tolerance = 1e-14,
                Compute = () => [Illumination.SeenFrom(new(0, 0, 0.2 * C)).IrradianceFactor],
            },
            new("REL-02", "Aberration seen by a craft that crosses the beam", "beta = 0.5: cos 120 deg")
            {
                Source = Sources.Relativity,
                Origin = Origins.ClosedForm,
                Expected = [-0.5],
                Tolerance = 1e-14,
                Compute = () => [Illumination.SeenFrom(new(0.5 * C, 0, 0)).Direction.X],
            },
            new("REL-03", "Irradiance on a sail at nearly the speed of light", "beta = 0.99")
            {
                Source = Sources.Relativity,
                Origin = Origins.ClosedForm,
                Expected = [1.0 / 199],
                Tolerance = 1e-13,
                Compute = () => [Illumination.SeenFrom(new(0, 0, 0.99 * C)).IrradianceFactor],
            },
            new(
                "REL-04",
                "Light seen from a craft in oblique motion",
                "beta = (0.2, -0.3, 0.5), boost matrix on (1, 0, 0, 1)"
            )
            {
                Source = Sources.Relativity,
                Origin = Origins.ClosedForm,
                Parts = ["direction x", "direction y", "direction z", "irradiance"],
                Expected = [-0.288105677579569001, 0.432158516369353502, 0.854537380853439701, 0.403225806451612903],
                Tolerance = 1e-14,
                Compute = () =>
                {
                    Illumination light = Illumination.SeenFrom(C * new Vec3(0.2, -0.3, 0.5));
                    return [.. Scenes.Components(light.Direction), light.IrradianceFactor];
                },
            },
        ];

    private static IEnumerable<OutsideCheck> Boosts() =>
        [
            BoostTo(
                "REL-05",
                0.1,
                0.105541596785133283,
                0.111307049589538236,
                0.111111111111111111,
                0.00576545280440495317
            ),
            BoostTo("REL-06", 0.2, 0.224744871391589049, 0.25189198687702512, 0.25, 0.0271471154854360711),
            BoostTo("REL-07", 0.5, 0.732050807568877294, 1.06538414090221063, 1, 1.0 / 3),
            BoostTo("REL-08", 0.9, 3.35889894354067355, 15.3159627929824697, 9, 11.9570638494417961),
            BoostTo("REL-09", 0.99, 13.1067359796658844, 474.260111315418109, 99, 461.153375335752225),
            new("REL-10", "Boost of a mirror to a fifth of the speed of light, fixed steps of 1 s", "1 g, 100 GW")
            {
                Source = Sources.Boost,
                Origin = Origins.ClosedForm,
                Parts = ["time, s", "proper time, s", "distance, m", "energy at the source, J"],
                Expected = [113.194613844016418, 112.344397342102205, 3657259726.32160182, 10099530852886.5355],
                Tolerance = 1e-9,
                Compute = () =>
                {
                    RideMethod steps = new() { FixedStepSeconds = 1, FindPeaks = false };
                    RideRecord end = Boost(0.2, OpticalCoefficients.Mirror, steps).Final;
                    return [end.TimeSeconds, end.ProperSeconds, end.DistanceMetres, end.State.Ledger.SourceJoules];
                },
            },
        ];

    private static OutsideCheck BoostTo(
        string id,
        double beta,
        double emission,
        double time,
        double proper,
        double distance
    ) =>
        new(
            id,
            "Boost of a perfect mirror under constant source power",
            FormattableString.Invariant($"to beta = {beta}; T = m c^2/(2 P)")
        )
        {
            Source = Sources.Boost,
            Origin = Origins.ClosedForm,
            Parts = BoostParts,
            Expected = [emission, time, proper, distance],
            Tolerance = 1e-9,
            Compute = () =>
            {
                const double Unit = Mass * C * C / (2 * Power);
                RideRecord end = Boost(beta, OpticalCoefficients.Mirror).Final;
                return
                [
                    end.SourceSeconds / Unit,
                    end.TimeSeconds / Unit,
                    end.ProperSeconds / Unit,
                    end.DistanceMetres / (C * Unit),
                ];
            },
        };

    private static IEnumerable<OutsideCheck> Accounts() =>
        [
            new("REL-11", "Energy account of a boosted mirror, in m c^2", "to beta = 0.2")
            {
                Source = Sources.Boost,
                Origin = Origins.ClosedForm,
                Parts = ["sent by the source", "kinetic", "efficiency"],
                Expected = [0.112372435695794525, 0.0206207261596575409, 0.183503419072273967],
                Tolerance = 1e-10,
                Compute = () =>
                {
                    EnergyLedger ledger = Boost(0.2, OpticalCoefficients.Mirror).Final.State.Ledger;
                    const double Rest = Mass * C * C;
                    return
                    [
                        ledger.SourceJoules / Rest,
                        ledger.WorkJoules / Rest,
                        ledger.WorkJoules / ledger.SourceJoules,
                    ];
                },
            },
            new(
                "REL-12",
                "Boost of a black sail that radiates evenly: twice the mirror's times",
                "1 g, 100 GW to beta = 0.2"
            )
            {
                Source = "four-momentum balance with the rest mass held",
                Origin = Origins.ClosedForm,
                Parts = ["emission", "time", "proper time"],
                Expected = [201.990617057730709, 226.389227688032835, 224.68879468420441],
                Unit = "s",
                Tolerance = 1e-10,
                Compute = () =>
                {
                    RideRecord end = Boost(0.2, new(0, 0, 1)).Final;
                    return [end.SourceSeconds, end.TimeSeconds, end.ProperSeconds];
                },
            },
            new("REL-13", "Energy and final speed of a boost with ramps", "2 s up, 5 s on, 3 s down at 100 GW, 1 g")
            {
                Source = Sources.Boost,
                Origin = Origins.ClosedForm,
                Parts = ["energy, J", "beta"],
                Expected = [7.5e11, 0.0165504960254235236],
                Tolerance = 1e-10,
                Compute = () =>
                {
                    RideSetup setup = Setup(OpticalCoefficients.Mirror) with
                    {
                        Schedule = PowerSchedule.Ramped(2, 5, 3),
                    };
                    RideState end = Flight.Fly(setup, new(), new() { DurationSeconds = 1e4 }).Final.State;
                    return [end.Ledger.SourceJoules, end.Beta];
                },
            },
        ];

    private static IEnumerable<OutsideCheck> Paths() =>
        [
            Thomas("REL-15", 0.1, 0.999874759394294813, 0.0158261026851545948),
            Thomas("REL-16", 0.6, 0.707106781186547524, 0.707106781186547524),
            Thomas("REL-17", 0.9, 0.602535122947414274, 0.798092366593456628),
            new("REL-18", "Ball on a spring in uniform light during a boost to beta = 0.2", "end of 300 s")
            {
                Source = Sources.Relativity,
                Origin = Origins.ScipyRide,
                Parts = ["proper time, s", "distance, m", "axial celerity, m/s", "offset, m", "lateral celerity, m/s"],
                Expected =
                [
                    297.7726060003324,
                    9636186881.213535,
                    60850947.63510921,
                    -0.20427893199487462,
                    0.17958984494491803,
                ],
                Tolerance = 1e-8,
                Compute = SpringDuringBoost,
            },
        ];

    private static OutsideCheck Thomas(string id, double beta, double cosine, double sine) =>
        new(
            id,
            "Turn of a free body after one circular path (Thomas)",
            FormattableString.Invariant($"beta = {beta}: half of 2 pi (gamma - 1)")
        )
        {
            Source = Sources.Electrodynamics,
            Origin = Origins.ClosedForm,
            Parts = ["|cos|", "|sin|"],
            Expected = [cosine, sine],
            Size = 1,
            Tolerance = 1e-11,
            Compute = () =>
            {
                double gamma = 1 / Math.Sqrt(1 - beta * beta);
                ForceLaw turning = new(p =>
                {
                    Vec3 v = p.VelocityMetresPerSecond;
                    double g = 1 / Math.Sqrt(1 - Vec3.Dot(v, v) / (C * C));
                    return g * Vec3.Cross(Vec3.UnitX, v);
                });
                UnitQuaternion attitude = Flight
                    .Fly(
                        turning.Setup(powerWatts: C * C),
                        new() { SpeedMetresPerSecond = beta * C },
                        new() { DurationSeconds = 2 * Math.PI * gamma },
                        new() { Tolerance = 1e-12, FindPeaks = false }
                    )
                    .Final.State.Attitude;
                return [Math.Abs(attitude.W), Math.Abs(attitude.X)];
            },
        };

    private static double[] SpringDuringBoost()
    {
        const double Thrust = 2.5e5;
        ForceLaw law = new(p =>
        {
            Illumination light = Illumination.SeenFrom(p.VelocityMetresPerSecond);
            return light.IrradianceFactor * (Thrust * light.Direction - new Vec3(p.OffsetXMetres, p.OffsetYMetres, 0));
        });
        RideState end = Flight
            .Fly(
                law.Setup(powerWatts: Thrust * C),
                new() { OffsetXMetres = 0.3 },
                new() { DurationSeconds = 300 },
                new() { Tolerance = 1e-12 }
            )
            .Final.State;
        return
        [
            end.ProperSeconds,
            end.PositionMetres.Z,
            end.CelerityMetresPerSecond.Z,
            end.PositionMetres.X,
            end.CelerityMetresPerSecond.X,
        ];
    }

    private const double Power = 100e9;

    private static RideResult Boost(double beta, OpticalCoefficients optics, RideMethod? method = null) =>
        Flight.Fly(
            Setup(optics),
            new(),
            new() { DurationSeconds = 1e7, TargetBeta = beta },
            method ?? new() { Tolerance = 1e-11 }
        );

    // A disc so much larger than the beam that all light meets it, held on the axis.
    private static RideSetup Setup(OpticalCoefficients optics)
    {
        SailCraft craft = Scenes.SingleSail(new Disc(6), optics: optics, mass: Mass);
        Beam beam = new(Power, 1.064e-6, new GaussianProfile(1));
        return RideSetup.For(craft, beam, ForceLaw.Rail(new SurfaceQuadrature(craft, beam, 1e-12)));
    }
}
