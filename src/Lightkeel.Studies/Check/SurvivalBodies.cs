using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Limits;
using Lightkeel.Physics.Limits.Heat;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Units;
using Lightkeel.Studies.Designs.Sections;

namespace Lightkeel.Studies.Check;

/// <summary>Heat of payloads and booms in the beam, in the light that sails throw across their axis, and inside a ball.</summary>
internal static class SurvivalBodies
{
    public static IReadOnlyList<CheckedBodyHeat> Of(SurvivalScene scene) =>
        [.. scene.Model.Design.Masses.Select(m => One(scene, m))];

    private static CheckedBodyHeat One(SurvivalScene scene, MassDesign mass)
    {
        Vec3 centre = mass.PositionMetres;
        (double cross, double surface, double radius, double halfLength, Vec3 direction) = SizeOf(scene, mass);
        SurvivalFilm? hollow = scene.Films.FirstOrDefault(f => IsInside(f.Surface, centre));
        double inside = hollow?.Heat.InnerIrradiationWattsPerSquareMetre ?? 0;
        if (hollow is not null && mass.Emissivity is null && hollow.Heat.HottestKelvin is not null)
        {
            // Grey or not, a body in a hollow without light of its own takes the temperature of the hollow.
            double kelvin = BlackBody.Temperature(inside);
            Add(scene, mass, kelvin, "Inside a ball: at the radiation temperature of its hollow.");
            return new(mass.Name, 0, 0, kelvin, null, "inside a ball, at the radiation temperature of its hollow");
        }
        string name = mass.Name;
        if (cross == 0 || mass.Absorptivity is not { } absorptivity || mass.Emissivity is not { } emissivity)
        {
            string missing = mass.Shape switch
            {
                PointMassDesign => "a point has no size: give it a shape with a size, absorptivity and emissivity",
                RodMassDesign { OuterRadiusMetres: null } => "give outer_radius, wall, absorptivity and emissivity",
                _ => "give absorptivity and emissivity",
            };
            scene.Limits.Add(LimitReading.NotAssessed("body-temperature", name, missing));
            return new(name, 0, 0, null, missing, missing);
        }
        double direct = cross * Irradiance(scene, centre) * Shade(scene, centre);
        (double reflected, double lit) = Reflected(scene, centre, radius, halfLength, direction);
        // What is thrown onto a stretch of a boom is radiated by that stretch: no conduction along thin walls.
        double emitting = reflected > 0 && lit < 2 * halfLength ? surface * lit / (2 * halfLength) : surface;
        BodyHeat heat = new(
            direct + emissivity * inside * surface / Math.Max(absorptivity, 1e-300),
            reflected,
            absorptivity,
            emissivity,
            emitting
        );
        if (absorptivity == 0)
        {
            heat = new(0, 0, 0, emissivity, emitting);
        }
        string text = hollow is not null ? "Inside a ball: in the glow of its hollow." : Text(reflected, scene);
        if (heat.Kelvin is { } temperature)
        {
            Add(scene, mass, temperature, text);
        }
        else if (heat.AbsorbedWatts > 0)
        {
            scene.Limits.Add(LimitReading.Broken("body-temperature", name, heat.Reason!, "energy balance"));
        }
        else
        {
            scene.Limits.Add(LimitReading.NotAssessed("body-temperature", name, heat.Reason!));
        }
        return new(name, direct, reflected, heat.Kelvin, heat.Reason, text);
    }

    private static string Text(double reflected, SurvivalScene scene) =>
        reflected > 0
            ? "In the beam, and in the light that a sail throws across its axis: all of what crosses within the body meets it."
        : scene.Films.Any(f => !f.Heat.Lighting.IsAxisymmetric)
            ? "In the beam; reflected light is not followed off the axis."
        : "In the beam.";

    private static void Add(SurvivalScene scene, MassDesign mass, double kelvin, string text)
    {
        const string Name = "body-temperature";
        SourcedValue? limit = scene.Model.Design.MaterialOf(mass.MaterialName)?.Find(MaterialProperty.TemperatureLimit);
        double? allowed = limit?.Value ?? scene.Settings.PayloadTemperatureKelvin;
        if (allowed is not { } highest)
        {
            scene.Limits.Add(
                LimitReading.NotAssessed(
                    Name,
                    mass.Name,
                    FormattableString.Invariant(
                        $"give it a material with a temperature_limit, or limits.payload_temperature (it reaches {kelvin:F0} K)"
                    )
                )
            );
            return;
        }
        scene.Limits.Add(
            LimitReading.Upper(
                Name,
                mass.Name,
                text,
                kelvin,
                highest,
                scene.Settings.BodyTemperatureFactor,
                Dimension.OfTemperature,
                limit?.Text ?? "the design, limits.payload_temperature"
            )
        );
    }

    // Cross-section to the light, radiating surface, radius, half length and direction in the body.
    private static (double Cross, double Surface, double Radius, double HalfLength, Vec3 Direction) SizeOf(
        SurvivalScene scene,
        MassDesign mass
    )
    {
        Mat3 bodyFromPart = new Placement(mass.PositionMetres, mass.TurnRadians).BodyFromPart;
        Vec3 light = scene.Pose.BeamFromBody.Transposed * Vec3.UnitZ;
        switch (mass.Shape)
        {
            case SphereMassDesign s:
                double r = s.RadiusMetres;
                return (Math.PI * r * r, 4 * Math.PI * r * r, r, r, light);
            case RodMassDesign { OuterRadiusMetres: { } radius } rod:
                Vec3 along = bodyFromPart * rod.Direction;
                double cosine = Math.Min(1, Math.Abs(Vec3.Dot(along, light)));
                double sine = Math.Sqrt(1 - cosine * cosine);
                double ends = Math.PI * radius * radius;
                double side = 2 * radius * rod.LengthMetres;
                return (side * sine + ends * cosine, Math.PI * side + 2 * ends, radius, 0.5 * rod.LengthMetres, along);
            case BoxMassDesign b:
                Vec3 seen = bodyFromPart.Transposed * light;
                Vec3 z = b.SizeMetres;
                double cross =
                    Math.Abs(seen.X) * z.Y * z.Z + Math.Abs(seen.Y) * z.X * z.Z + Math.Abs(seen.Z) * z.X * z.Y;
                return (cross, 2 * (z.X * z.Y + z.Y * z.Z + z.Z * z.X), 0.5 * Math.Max(z.X, z.Y), 0.5 * z.Z, light);
            default:
                return default;
        }
    }

    private static double Irradiance(SurvivalScene scene, Vec3 body)
    {
        Illumination light = Illumination.SeenFrom(scene.Pose.VelocityMetresPerSecond);
        Vec3 arm = scene.InBeam(body);
        double x = scene.Pose.OffsetXMetres + Vec3.Dot(light.ProfileX, arm);
        double y = scene.Pose.OffsetYMetres + Vec3.Dot(light.ProfileY, arm);
        return light.IrradianceFactor * scene.Model.Beam.Irradiance(x, y);
    }

    // Share of the light that the films between the laser and the body let through.
    private static double Shade(SurvivalScene scene, Vec3 body)
    {
        Vec3 towardsLaser = scene.Pose.BeamFromBody.Transposed * new Vec3(0, 0, -1);
        double share = 1;
        foreach (SurvivalFilm film in scene.Films)
        {
            Mat3 fromBody = film.Surface.BodyFromSurface.Transposed;
            double distance = film.Surface.Shape.FirstMeeting(
                fromBody * (body - film.Surface.OriginMetres),
                fromBody * towardsLaser,
                1e-9
            );
            share *= double.IsPositiveInfinity(distance) ? 1 : film.Surface.Optics.Passed;
        }
        return share;
    }

    private static bool IsInside(PlacedSurface surface, Vec3 body) =>
        surface.Shape.ClosedSphereRadiusMetres is { } radius && (body - surface.OriginMetres).Length < radius;

    // Bodies on the axis of a film take what crosses the axis within them; the length over which it does is told too.
    private static (double Watts, double LitMetres) Reflected(
        SurvivalScene scene,
        Vec3 centre,
        double radius,
        double halfLength,
        Vec3 direction
    )
    {
        double watts = 0;
        double lit = 0;
        foreach (SurvivalFilm film in scene.Films)
        {
            Mat3 fromBody = film.Surface.BodyFromSurface.Transposed;
            Vec3 at = fromBody * (centre - film.Surface.OriginMetres);
            double reach = halfLength * Math.Abs((fromBody * direction).Z);
            if (double.Hypot(at.X, at.Y) > radius || IsInside(film.Surface, centre))
            {
                continue;
            }
            double thrown = ReflectedLight.WattsOntoAxis(film.Heat.Lighting, at.Z - reach, at.Z + reach);
            if (thrown > 0)
            {
                watts += thrown;
                lit += Overlap(film.Heat.Lighting, at.Z - reach, at.Z + reach);
            }
        }
        return (watts, Math.Clamp(lit, 0.02 * halfLength, 2 * halfLength));
    }

    // Length of the axis within a body over which the mirror rays of a film cross it.
    private static double Overlap(SurfaceLighting lighting, double low, double high)
    {
        double least = double.PositiveInfinity;
        double greatest = double.NegativeInfinity;
        for (int p = 0; p < lighting.Surface.Shape.Pieces.Count; p++)
        {
            (double start, double end) = lighting.Surface.Shape.Pieces[p];
            for (int i = 0; i <= 64; i++)
            {
                double u = start + (end - start) * i / 64;
                if (ReflectedLight.Crossing(lighting, p, u) is { } z && z >= low && z <= high)
                {
                    (least, greatest) = (Math.Min(least, z), Math.Max(greatest, z));
                }
            }
        }
        return Math.Max(0, greatest - least);
    }
}
