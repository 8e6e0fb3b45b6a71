using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>The ring of a surface on which the beam's axis meets it: where a beam with a point on its axis is not smooth.</summary>
/// <param name="Piece">Piece of the meridian.</param>
/// <param name="Parameter">Parameter of the ring.</param>
/// <param name="RadiusMetres">Radius of the ring, m.</param>
/// <param name="AzimuthRadians">Azimuth of the meeting on it, rad.</param>
internal readonly record struct AxisMeeting(int Piece, double Parameter, double RadiusMetres, double AzimuthRadians)
{
    /// <summary>Finds the ring; null when the axis passes by, or meets the surface on its own axis, where polar rings are smooth.</summary>
    public static AxisMeeting? Of(SurfacePlan plan, in SurfaceLight<F64> light)
    {
        Vec3 acrossX = new(light.AcrossX.X.Value, light.AcrossX.Y.Value, light.AcrossX.Z.Value);
        Vec3 acrossY = new(light.AcrossY.X.Value, light.AcrossY.Y.Value, light.AcrossY.Z.Value);
        Vec3 direction = new(light.Direction.X.Value, light.Direction.Y.Value, light.Direction.Z.Value);
        Vec3 onAxis = -light.OriginX.Value * acrossX - light.OriginY.Value * acrossY;
        Vec3 point = Point(plan, onAxis, direction);
        double radius = double.Hypot(point.X, point.Y);
        if (!(radius > 1e-12 * plan.ReachMetres) || !double.IsFinite(radius))
        {
            return null;
        }
        for (int p = 0; p < plan.Pieces.Count; p++)
        {
            MeridianPiece range = plan.Pieces[p];
            double inner = plan.Surface.Shape.At(p, range.Start).RadiusMetres;
            double outer = plan.Surface.Shape.At(p, range.End).RadiusMetres;
            if (radius > inner && radius < outer)
            {
                return new(p, ParameterAt(plan.Surface.Shape, p, range, radius), radius, Math.Atan2(point.Y, point.X));
            }
        }
        return AtTheRim(plan, point, radius);
    }

    // An axis that passes just outside the rim is felt as one that meets it: the nodes next to it see the point as near.
    private static AxisMeeting? AtTheRim(SurfacePlan plan, Vec3 point, double radius)
    {
        MeridianPiece last = plan.Pieces[^1];
        double rim = plan.Surface.Shape.At(plan.Pieces.Count - 1, last.End).RadiusMetres;
        bool near = radius >= rim && radius < rim + 0.5 * plan.LongestStretchMetres;
        return near ? new(plan.Pieces.Count - 1, last.End, rim, Math.Atan2(point.Y, point.X)) : null;
    }

    private static Vec3 Point(SurfacePlan plan, Vec3 onAxis, Vec3 direction)
    {
        if (plan.IsSphere)
        {
            return onAxis;
        }
        double before = 4 * (plan.ReachMetres + onAxis.Length);
        Vec3 start = onAxis - before * direction;
        double distance = plan.Surface.Shape.FirstMeeting(start, direction, 0);
        if (double.IsFinite(distance))
        {
            return start + distance * direction;
        }
        // Past the surface: where the axis crosses the plane of the rim.
        double height = plan.Surface.Shape.At(plan.Pieces.Count - 1, plan.Pieces[^1].End).HeightMetres;
        return direction.Z != 0 ? onAxis + (height - onAxis.Z) / direction.Z * direction : onAxis;
    }

    private static double ParameterAt(SurfaceOfRevolution shape, int piece, MeridianPiece range, double radius)
    {
        (double low, double high) = (range.Start, range.End);
        for (int i = 0; i < 60; i++)
        {
            double middle = 0.5 * (low + high);
            (low, high) = shape.At(piece, middle).RadiusMetres < radius ? (middle, high) : (low, middle);
        }
        return 0.5 * (low + high);
    }
}
