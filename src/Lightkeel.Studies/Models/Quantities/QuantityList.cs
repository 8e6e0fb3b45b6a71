using Lightkeel.Physics.Limits.Mission;
using Lightkeel.Physics.Motion;
using Lightkeel.Physics.Motion.Wells;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Models.Quantities;

/// <summary>The quantities of a design that can be measured as one number each.</summary>
public static class QuantityList
{
    /// <summary>All of them, cheapest first.</summary>
    public static IReadOnlyList<DesignQuantity> All { get; } =
    [
        .. OfMass(),
        .. OfLight(),
        .. OfModes(),
        .. OfWell(),
        .. OfBoost(),
        new(
            "mean_exit_time_s",
            "s",
            QuantityCost.Escape,
            "mean time to the escape from the well under the design's noise",
            m => m.Escape.Number(e => e.MeanSeconds, "the noise leads nowhere out of the well")
        ),
        .. OfRide(),
    ];

    /// <summary>A quantity by its name; null for none.</summary>
    public static DesignQuantity? Find(string name) => All.FirstOrDefault(q => q.Name == name);

    private static IEnumerable<DesignQuantity> OfMass() =>
        [
            Mass("mass_kg", "kg", "mass", m => m.Craft.Mass.MassKilograms),
            Mass("film_mass_kg", "kg", "mass of the films", m => BudgetOf(m)?.Film),
            Mass("boom_mass_kg", "kg", "mass of booms and frames", m => BudgetOf(m)?.Boom),
            Mass("payload_mass_kg", "kg", "mass of the payload", m => BudgetOf(m)?.Payload),
            Mass("payload_fraction", "", "payload over the mass to plan with", m => BudgetOf(m)?.PayloadFraction),
            Mass(
                "center_of_mass_z_m",
                "m",
                "centre of mass along the body axis",
                m => m.Craft.Mass.CenterOfMassMetres.Z
            ),
            Mass(
                "boom_length_m",
                "m",
                "length of all rods together",
                m => m.Design.Masses.Sum(x => x.Shape is RodMassDesign r ? r.LengthMetres : 0)
            ),
        ];

    private static DesignQuantity Mass(string name, string unit, string text, Func<DesignModel, double?> read) =>
        new(
            name,
            unit,
            QuantityCost.Mass,
            text,
            m => new Measured<DesignModel>(m.Model, null).Number(read, "mass properties are given as measured")
        );

    private static MassBudget? BudgetOf(DesignModel model) =>
        model.Design.Craft is not null
            ? null
            : new(
                model.Parts.OfType<Physics.Craft.ThinShell>().Sum(p => p.BodyMoments.MassKilograms),
                model.Design.Masses.Where(IsBoom).Sum(m => m.MassKilograms),
                model.Design.Masses.Where(m => !IsBoom(m)).Sum(m => m.MassKilograms),
                model.Design.Budget.JointsKilograms,
                model.Design.Budget.GrowthFraction
            );

    private static bool IsBoom(MassDesign mass) =>
        mass.Role is { } role ? role == MassRole.Boom : mass.Shape is RodMassDesign;

    private static IEnumerable<DesignQuantity> OfLight() =>
        [
            Light("thrust_N", "N", "thrust", (m, r) => r.ForceNewtons.Z),
            Light(
                "acceleration_m_s2",
                "m/s^2",
                "acceleration",
                (m, r) => r.ForceNewtons.Z / m.Craft.Mass.MassKilograms
            ),
            Light(
                "acceleration_per_power_m_s2_W",
                "m/s^2/W",
                "acceleration per watt of the beam",
                (m, r) => r.ForceNewtons.Z / m.Craft.Mass.MassKilograms / m.Beam.PowerWatts
            ),
            Light("intercepted_W", "W", "power that meets the craft", (m, r) => r.InterceptedWatts),
            Light(
                "intercepted_fraction",
                "",
                "share of the beam that meets the craft",
                (m, r) => r.InterceptedWatts / m.Beam.PowerWatts
            ),
            new(
                "film_temperature_K",
                "K",
                QuantityCost.Linear,
                "hottest element of all films at the start of the boost",
                m => m.FilmKelvin
            ),
        ];

    private static DesignQuantity Light(
        string name,
        string unit,
        string text,
        Func<DesignModel, PressureReading, double?> read
    ) =>
        new(name, unit, QuantityCost.Linear, text, m => m.Assessment.Number(a => read(m.Model, a.Trim.Reading!.Value)));

    private static IEnumerable<DesignQuantity> OfModes() =>
        [
            Linear("growth_rate_1_s", "1/s", "growth rate of the fastest growing motion", r => r.GrowthPerSecond),
            Linear(
                "riding_clearance",
                "",
                "signed distance to the change of the verdict: above zero the craft rides",
                r => r.Clearance
            ),
            Linear(
                "slowest_frequency_Hz",
                "Hz",
                "frequency of the slowest swing",
                r => r.Modes.Where(m => m.FrequencyHertz > 0).Select(m => (double?)m.FrequencyHertz).Min()
            ),
            Linear(
                "fastest_frequency_Hz",
                "Hz",
                "frequency of the fastest swing",
                r => r.Modes.Select(m => (double?)m.FrequencyHertz).Max()
            ),
            Linear(
                "lateral_stiffness_N_m",
                "N/m",
                "lateral stiffness: above zero pulls back",
                r => -0.5 * (r.Model.Jacobian[0][0] + r.Model.Jacobian[1][1])
            ),
            Linear(
                "tilt_stiffness_Nm_rad",
                "N m/rad",
                "tilt stiffness: above zero rights the craft",
                r => -0.5 * (r.Model.Jacobian[2][2] + r.Model.Jacobian[3][3])
            ),
        ];

    private static DesignQuantity Linear(string name, string unit, string text, Func<StabilityReport, double?> read) =>
        new(name, unit, QuantityCost.Linear, text, m => m.Assessment.Number(a => read(a.Report)));

    private static IEnumerable<DesignQuantity> OfWell() =>
        [
            Well("well_depth_J", "J", "depth of the potential well", (m, w) => w.DepthJoules),
            Well(
                "well_depth_per_power_s",
                "s",
                "depth of the potential well per watt of the beam",
                (m, w) => w.DepthJoules / m.Beam.PowerWatts
            ),
            Well("well_rim_m", "m", "rim of the potential well", (m, w) => w.RimMetres),
            Well(
                "escape_speed_m_s",
                "m/s",
                "lateral speed that leaves the well from its bottom",
                (m, w) => Math.Sqrt(2 * w.DepthJoules!.Value / m.Craft.Mass.MassKilograms)
            ),
        ];

    private static DesignQuantity Well(
        string name,
        string unit,
        string text,
        Func<DesignModel, LateralWell, double?> read
    ) => new(name, unit, QuantityCost.Well, text, m => m.Well.Number(w => read(m.Model, w), "there is no well"));

    private static IEnumerable<DesignQuantity> OfBoost() =>
        [
            Boost(
                "boost_speed_m_s",
                "m/s",
                "speed at the end of the straight boost",
                b => b.Beta * Illumination.LightSpeed
            ),
            Boost("boost_beta", "", "speed at the end of the straight boost over that of light", b => b.Beta),
            Boost("boost_time_s", "s", "time of the straight boost", b => b.TimeSeconds),
            Boost("boost_distance_m", "m", "length of the straight boost", b => b.DistanceMetres),
            Boost("boost_energy_J", "J", "energy that leaves the source for the straight boost", b => b.SourceJoules),
        ];

    private static DesignQuantity Boost(string name, string unit, string text, Func<BoostInstant, double?> read) =>
        new(name, unit, QuantityCost.Boost, text, m => m.Boost.Number(b => read(b.Instants[^1])));

    private static IEnumerable<DesignQuantity> OfRide() =>
        [
            Ride(
                "ride_held",
                "",
                "1 when the ride is held to its end, else 0",
                r => r.Outcome.Ending == RideEnding.Held ? 1 : 0
            ),
            Ride("ride_time_s", "s", "time to the end of the ride", r => r.Final.TimeSeconds),
            Ride("ride_max_offset_m", "m", "largest offset of the ride", r => r.MaximumOffsetMetres),
            Ride("ride_max_tilt_rad", "rad", "largest tilt of the ride", r => r.MaximumTiltRadians),
            Ride(
                "ride_speed_m_s",
                "m/s",
                "axial speed at the end of the ride",
                r => r.Final.State.VelocityMetresPerSecond.Z
            ),
        ];

    private static DesignQuantity Ride(string name, string unit, string text, Func<RideResult, double?> read) =>
        new(name, unit, QuantityCost.Ride, text, m => m.Ride.Number(read));
}
