using System.Collections.Concurrent;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Stability;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Lightkeel.Studies.Models;

namespace Lightkeel.Studies.Map;

/// <summary>Assesses the design at values of the axes; safe to ask from several threads.</summary>
/// <remarks>
/// Where an axis belongs to the masses alone, all cells along it share the light pressure of their surfaces. What a cell
/// comes to does not depend on which cells were asked before.
/// </remarks>
internal sealed class MapAssessor(
    DesignDocument document,
    IReadOnlyList<DesignAxis> axes,
    string engine,
    double accuracy
)
{
    // Cells by rays: a force that takes more is within a tilt's step of where bounces change, and would be refused after all.
    private const long RayBudget = 240_000;

    private readonly ConcurrentDictionary<LightKey, Lazy<SharedLight>> _lights = new();
    private readonly MapDesigns _designs = new(document, axes);
    private readonly bool _shares = axes.Any(a => a.IsOfMassOnly);

    /// <summary>The cell at values of the axes, one per axis.</summary>
    public MapCell At(params ReadOnlySpan<double> values)
    {
        try
        {
            DesignModel model = DesignModel.Build(_designs.At(values));
            return _shares
                ? Shared(model, values)
                : Assess(model, EngineChoice.Pick(engine, model, accuracy, RayBudget));
        }
        catch (DesignFaultException e)
        {
            return MapCell.Blocked(new(MapWords.Refused, e.Faults.Count > 0 ? e.Faults[0].ToString() : e.Message));
        }
        catch (InputRefusedException e)
        {
            return MapCell.Blocked(new(MapWords.Refused, e.Faults[0].ToString()));
        }
    }

    private MapCell Shared(DesignModel model, ReadOnlySpan<double> values)
    {
        Vec3 center = model.Craft.Mass.CenterOfMassMetres;
        LightKey key = new(Lit(values, 0), Lit(values, 1), Lit(values, 2), center.X, center.Y);
        SharedLight light = _lights.GetOrAdd(key, _ => new(() => SharedLight.Of(model, engine, accuracy))).Value;
        return light.Obstacle is { } obstacle
            ? MapCell.Blocked(obstacle)
            : Assess(model, light.Pressure.For(model.Craft));
    }

    private double Lit(ReadOnlySpan<double> values, int axis) =>
        axis < axes.Count && !axes[axis].IsOfMassOnly ? values[axis] : 0;

    private static MapCell Assess(DesignModel model, IPressureEngine pressure)
    {
        try
        {
            RidingAssessment assessment = RidingAssessment.Of(
                model.Craft,
                model.Beam,
                pressure,
                model.Design.Start.SpinRadiansPerSecond,
                model.Design.Start.SpeedMetresPerSecond
            );
            return MapCell.Of(assessment.Report) with { Engine = pressure.Name };
        }
        catch (Exception e) when (e is PressureUnavailableException or ArithmeticException)
        {
            return MapCell.Blocked(MapWords.ObstacleOf(model, e.Message));
        }
    }

    /// <summary>What the light depends on: the values of the axes that it sees, and the line that the centre of mass lies on.</summary>
    private readonly record struct LightKey(double First, double Second, double Third, double CenterX, double CenterY);

    private sealed record SharedLight(SharedPressure Pressure, MapObstacle? Obstacle)
    {
        public static SharedLight Of(DesignModel model, string engine, double accuracy)
        {
            // A place that follows from the surfaces alone, so that the answers do not depend on which cell came first.
            PlacedSurface first = model.Craft.Surfaces[0];
            Vec3 own = model.Craft.Mass.CenterOfMassMetres;
            (double low, double high) = first.Shape.HeightRangeMetres;
            double z = first.OriginMetres.Z + (first.BodyFromSurface.Row2.Z < 0 ? -0.5 : 0.5) * (low + high);
            SailCraft craft = model.Craft with
            {
                Mass = model.Craft.Mass with { CenterOfMassMetres = new(own.X, own.Y, z) },
            };
            CraftPose axial = CraftPose.OnAxis with
            {
                VelocityMetresPerSecond = new(0, 0, model.Design.Start.SpeedMetresPerSecond),
            };
            IPressureEngine own2 = EngineChoice.Pick(engine, model with { Craft = craft }, accuracy, RayBudget);
            SharedPressure pressure = new(own2, craft, axial);
            try
            {
                IPressureEngine about = pressure.For(craft);
                _ = about.Evaluate(axial);
                _ = about.Differentiate(axial);
                return new(pressure, null);
            }
            catch (PressureUnavailableException e)
            {
                return new(pressure, MapWords.ObstacleOf(model, e.Message));
            }
        }
    }
}
