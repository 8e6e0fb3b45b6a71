using Lightkeel.Physics.Limits.Heat;
using Lightkeel.Physics.Limits.Mission;
using Lightkeel.Physics.Limits.Strength;
using Lightkeel.Physics.Materials;
using Lightkeel.Physics.Shapes;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Check;

/// <summary>Figures of survival: temperature over a film, its stress, temperature along the boost, the runaway curve.</summary>
internal static class SurvivalFigures
{
    private const int Points = 201;
    private const int Grid = 121;

    public static IReadOnlyList<Figure> Of(DesignModel model, CheckResult r)
    {
        RidingAssessment assessment = CheckStudy.Assess(model, r.Engine == "reference" ? "reference" : "auto", 1e-6);
        SurvivalScene scene = new(model, assessment);
        List<Figure> figures = [];
        foreach (SurvivalFilm film in scene.Films)
        {
            if (film.Heat.HottestKelvin is not null)
            {
                figures.Add(Temperature(scene, film));
            }
            if (film.ThicknessMetres is not null && Stress(scene, film) is { } stress)
            {
                figures.Add(stress);
            }
            if (film.Heat.HottestKelvin is not null && film.Law.Grows)
            {
                figures.Add(Runaway(scene, film));
            }
        }
        SurvivalBoost boost = new(scene, 1e-6);
        if (boost.Reason is null && scene.Films.Any(f => f.Heat.HottestKelvin is not null))
        {
            figures.Add(Boost(scene, boost));
        }
        if (FilmModesFigure.Of(scene, r, Title(scene, null, "frequencies of the film and of the craft")) is { } modes)
        {
            figures.Add(modes);
        }
        return figures;
    }

    private static string Title(SurvivalScene scene, SurvivalFilm? film, string what)
    {
        string of = film is null || scene.Films.Count == 1 ? what : $"{what}, {film.Sail.Name}";
        return scene.Model.Design.Title.Length > 0 ? $"{scene.Model.Design.Title}: {of}" : of;
    }

    private static string Named(SurvivalScene scene, SurvivalFilm film, string name) =>
        scene.Films.Count == 1 ? name : $"{name}-{film.Sail.Name.ToLowerInvariant().Replace('_', '-')}";

    private static Figure Temperature(SurvivalScene scene, SurvivalFilm film)
    {
        List<double> arc = [];
        List<double> kelvin = [];
        double length = 0;
        SurfaceOfRevolution shape = film.Surface.Shape;
        for (int p = 0; p < shape.Pieces.Count; p++)
        {
            (double start, double end) = shape.Pieces[p];
            for (int i = 0; i < Points; i++)
            {
                double u = start + (end - start) * i / (Points - 1);
                length += i == 0 ? 0 : shape.At(p, u).ArcRate * (end - start) / (Points - 1);
                arc.Add(length);
                kelvin.Add(film.Heat.KelvinAt(new(p, u, film.Heat.Hottest.Place.AzimuthRadians)) ?? 0);
            }
        }
        List<PlotItem> items = [new LineSeries(arc, kelvin) { Tone = Tone.Ember, Dash = LineDash.Solid }];
        if (film.Material?.Value(MaterialProperty.TemperatureLimit) is { } limit)
        {
            items.Add(
                new MarkerLine(limit / scene.Settings.FilmTemperatureFactor, IsVertical: false)
                {
                    Tone = Tone.Indigo,
                    Text = "allowed",
                }
            );
        }
        return new()
        {
            Name = Named(scene, film, "temperature"),
            Title = Title(scene, film, "temperature of the film in its trim"),
            Note =
                "Left: along the meridian through the hottest element, from the inner end outward. Right: the lit side as the laser sees it.",
            Panels =
            [
                new()
                {
                    X = new("arc from the inner end", "m"),
                    Y = new("temperature", "K") { Minimum = 0 },
                    Items = items,
                    Legend = LegendPlace.None,
                },
                Face(film),
            ],
            Columns = 2,
        };
    }

    // The lit side from the laser: places of the meridian where the light meets it, by their distance from the axis.
    private static Panel Face(SurvivalFilm film)
    {
        SurfaceOfRevolution shape = film.Surface.Shape;
        double half = shape.MaximumRadiusMetres;
        double[] at = [.. Enumerable.Range(0, Grid).Select(i => half * (2.0 * i / (Grid - 1) - 1))];
        double?[][] values =
        [
            .. at.Select(y =>
                (double?[])[.. at.Select(x => KelvinSeen(film, Math.Sqrt(x * x + y * y), Math.Atan2(y, x)))]
            ),
        ];
        return new()
        {
            Title = "Seen from the laser",
            X = new("x of the film", "m"),
            Y = new("y of the film", "m"),
            Items = [new HeatMap(at, at, values) { ValueLabel = "temperature", ValueUnit = "K" }],
            EqualAspect = true,
        };
    }

    private static double? KelvinSeen(SurvivalFilm film, double radius, double azimuth)
    {
        SurfaceOfRevolution shape = film.Surface.Shape;
        for (int p = 0; p < shape.Pieces.Count; p++)
        {
            (double start, double end) = shape.Pieces[p];
            // A ball is seen by its near half; radius rises along every other meridian drawn here.
            end = shape is Sphere ? 0.5 * (start + end) : end;
            double low = shape.At(p, start).RadiusMetres;
            double high = shape.At(p, end).RadiusMetres;
            if (radius < low || radius > high)
            {
                continue;
            }
            for (int i = 0; i < 50; i++)
            {
                double middle = 0.5 * (start + end);
                (start, end) = shape.At(p, middle).RadiusMetres < radius ? (middle, end) : (start, middle);
            }
            return film.Heat.KelvinAt(new(p, start, azimuth));
        }
        return null;
    }

    private static Figure? Stress(SurvivalScene scene, SurvivalFilm film)
    {
        double mount =
            scene.Settings.MountRadiusMetres ?? SurvivalStress.MountShare * film.Surface.Shape.MaximumRadiusMetres;
        ShellStation[] stations =
        [
            .. MembraneShell.Stations(SurvivalStress.LoadsOf(scene, film)).Where(s => s.RadiusMetres >= mount),
        ];
        if (stations.Length < 2)
        {
            return null;
        }
        double thickness = film.ThicknessMetres!.Value;
        double[] arc = [.. stations.Select(s => s.ArcMetres)];
        return new()
        {
            Name = Named(scene, film, "stress"),
            Title = Title(scene, film, "membrane stress of the film"),
            Note =
                "Positive is tension. Equilibrium of a thin film under light, inertia, spin and inner pressure; the mount is left out.",
            Panels =
            [
                new()
                {
                    X = new("arc from the inner end", "m"),
                    Y = new("stress", "Pa"),
                    Items =
                    [
                        new MarkerLine(0, IsVertical: false) { Tone = Tone.Grey, Dash = LineDash.Solid },
                        new LineSeries(arc, [.. stations.Select(s => s.MeridionalNewtonsPerMetre / thickness)])
                        {
                            Tone = Tone.Indigo,
                            Label = "along the meridian",
                        },
                        new LineSeries(arc, [.. stations.Select(s => s.HoopNewtonsPerMetre / thickness)])
                        {
                            Tone = Tone.Ember,
                            Label = "around",
                        },
                    ],
                },
            ],
        };
    }

    private static Figure Runaway(SurvivalScene scene, SurvivalFilm film)
    {
        RunawayPoint turning = RunawayPoint.Of(film.Heat);
        double now = film.Heat.HottestKelvin!.Value;
        // Beyond its table nothing is known of a film; where it already is there, the curve ends with it.
        double top = turning.Kelvin ?? Math.Min(2 * now, Math.Max(1.02 * now, film.Law.RangeKelvin.Highest));
        double bottom = Math.Min(0.8 * film.Heat.HottestKelvin!.Value, 0.5 * top);
        List<double> power = [];
        List<double> kelvin = [];
        for (int i = 0; i <= 60; i++)
        {
            double t = bottom * Math.Pow(top / bottom, i / 60.0);
            if (RunawayPoint.PowerFactorAt(film.Heat, t) is { } factor and > 0)
            {
                power.Add(factor * scene.Model.Beam.PowerWatts);
                kelvin.Add(t);
            }
        }
        List<PlotItem> items =
        [
            new LineSeries(power, kelvin)
            {
                Tone = Tone.Ember,
                Label = "in balance",
                Dash = LineDash.Solid,
            },
            new ScatterSeries([scene.Model.Beam.PowerWatts], [film.Heat.HottestKelvin!.Value])
            {
                Tone = Tone.Indigo,
                Label = "this design",
            },
        ];
        if (turning.PowerFactor is { } at)
        {
            items.Add(
                new ScatterSeries([at * scene.Model.Beam.PowerWatts], [turning.Kelvin!.Value])
                {
                    Tone = Tone.Plum,
                    IsHollow = true,
                    Label = "turning point",
                }
            );
        }
        return new()
        {
            Name = Named(scene, film, "runaway"),
            Title = Title(scene, film, "power that holds the hottest element at a temperature"),
            Note =
                "Beyond the turning point absorption outruns emission and no temperature is in balance. Above the film's own limit the curve is the stated law of absorption carried on, not a film.",
            Panels =
            [
                new()
                {
                    X = new("beam power", "W") { Scale = AxisScale.Logarithmic },
                    Y = new("hottest element", "K") { Minimum = 0 },
                    Items = items,
                },
            ],
        };
    }

    private static Figure Boost(SurvivalScene scene, SurvivalBoost boost)
    {
        IReadOnlyList<BoostInstant> instants = boost.Sampled();
        double[] time = [.. instants.Select(i => i.TimeSeconds)];
        Tone[] tones = [Tone.Ember, Tone.Plum, Tone.Teal, Tone.Sky];
        List<PlotItem> heat = [];
        int shown = 0;
        foreach (SurvivalFilm film in scene.Films.Where(f => f.Heat.HottestKelvin is not null))
        {
            double?[] kelvin = [.. instants.Select(i => boost.KelvinAt(film, i))];
            if (kelvin.All(k => k is not null))
            {
                heat.Add(
                    new LineSeries(time, [.. kelvin.Select(k => k!.Value)])
                    {
                        Tone = tones[shown++ % tones.Length],
                        Label = film.Sail.Name,
                    }
                );
            }
        }
        return new()
        {
            Name = "boost",
            Title = Title(scene, null, "heat and speed along the straight boost"),
            Note = "Quasi-steady: the film is taken to follow its light at once. Time in the frame of the laser.",
            Panels =
            [
                new()
                {
                    X = new("time", "s"),
                    Y = new("hottest element", "K")
                    {
                        Minimum = 0,
                        Maximum = 1.15 * heat.OfType<LineSeries>().SelectMany(l => l.Y).DefaultIfEmpty(1).Max(),
                    },
                    Items = heat,
                },
                new()
                {
                    X = new("time", "s"),
                    Y = new("speed", "m/s") { Minimum = 0 },
                    Items =
                    [
                        new LineSeries(
                            time,
                            [.. instants.Select(i => i.Beta * Physics.Pressure.Illumination.LightSpeed)]
                        )
                        {
                            Tone = Tone.Indigo,
                        },
                    ],
                    Legend = LegendPlace.None,
                },
            ],
            Columns = 2,
        };
    }
}
