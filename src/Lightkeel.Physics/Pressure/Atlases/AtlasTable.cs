using System.Runtime.CompilerServices;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>
/// The table of an axisymmetric craft in an axisymmetric beam, read for torques about a place on the axis. See
/// <see cref="PressureAtlas"/>.
/// </summary>
internal sealed class AtlasTable : IPressureEngine
{
    private readonly IPressureEngine _outside;
    private readonly AtlasPieces _plain;
    private readonly AtlasPieces _scaled;
    private readonly AtlasPieces _plainSlants;
    private readonly AtlasPieces _scaledSlants;
    private readonly bool _isBall;
    private readonly double _shift;
    private readonly double _perOffset;
    private readonly double _perSine;
    private readonly double _powerWatts;
    private readonly double _largestSlant;
    private readonly double _error;
    private readonly double _slopeError;

    /// <param name="content">What was built.</param>
    /// <param name="outside">Quadrature to hand over to, about the place of the answers.</param>
    /// <param name="craft">The craft whose centre of mass is that place.</param>
    /// <param name="shiftMetres">Along the body axis from that place to the one that was tabled, m.</param>
    /// <param name="powerWatts">Power of the beam, W.</param>
    public AtlasTable(
        AtlasContent content,
        IPressureEngine outside,
        SailCraft craft,
        double shiftMetres,
        double powerWatts
    )
    {
        bool isBall = AtlasScene.Balls(craft);
        _outside = outside;
        _isBall = isBall;
        (_plain, _scaled) = (new(content.Plain), new(content.Scaled));
        (_plainSlants, _scaledSlants) = (new(content.PlainSlants), new(content.ScaledSlants));
        _perOffset = 1 / content.OffsetMetres;
        _perSine = isBall ? 0 : 1 / Math.Sin(content.Report.Box.TiltRadians);
        _powerWatts = powerWatts;
        Accuracy = content.Accuracy;
        _shift = shiftMetres;
        double growth = AtlasBuild.Growth(craft, shiftMetres);
        _error = growth * (content.Report.LargestMiss * AtlasRefinement.Safety + outside.Accuracy);
        _largestSlant = AtlasLight.LargestSlant(content.Accuracy);
        _slopeError = AtlasRefinement.Safety * content.Report.LargestSlopeMiss + outside.Accuracy;
    }

    /// <inheritdoc/>
    public string Name => "atlas";

    /// <inheritdoc/>
    public double Accuracy { get; }

    /// <summary>Error that it vouches for.</summary>
    public double RelativeError => _error;

    /// <inheritdoc/>
    public PressureReading Evaluate(in CraftPose pose)
    {
        if (_isBall && pose.BeamScale == 1 && TryBall(pose, out PressureReading ball))
        {
            return ball;
        }
        return TryPlace(pose, out AtlasPlace place)
            ? At(place, pose)
            : _outside.Evaluate(pose) with
            {
                IsHandedOver = true,
            };
    }

    [SkipLocalsInit]
    private PressureReading At(in AtlasPlace place, in CraftPose pose)
    {
        Span<double> inM = stackalloc double[AtlasPiece.MostTerms];
        AtlasFit.Azimuths(inM, place.Piece.Orders, place.A, place.B, place.C);
        AtlasLanes v = AtlasLanes.From(place.Piece.Value(place.A, place.B, inM, place.W));
        Vec3 force = new(v.Q0 * place.Rx + v.Q1 * place.Tx, v.Q0 * place.Ry + v.Q1 * place.Ty, v.Q2);
        Vec3 torque = new(
            -(v.Q3 * place.Ry + v.Q4 * place.Ty),
            v.Q3 * place.Rx + v.Q4 * place.Tx,
            v.Q5 * (place.Rx * place.Ty - place.Ry * place.Tx)
        );
        (double power, double absorbed) = (v.Q6, v.Q7);
        if (place.Slant is not null)
        {
            UnitWrench change = AtlasSlant.Change(place.Slant, place);
            force += change.Force;
            torque += change.Torque;
            force += Vec3.Cross(place.Light.Turn, force);
            torque += Vec3.Cross(place.Light.Turn, torque);
            (power, absorbed) = (power + change.Power, absorbed + change.Absorbed);
        }
        if (_shift != 0)
        {
            torque += Vec3.Cross(_shift * pose.BeamFromBody.Column2, force);
        }
        double watts = _powerWatts * place.Light.Doppler;
        double newtons = 1 / Illumination.LightSpeed * watts;
        return new(newtons * force, newtons * torque, watts * power, watts * absorbed, _error);
    }

    // A ball in a beam of designed size: series in the offset alone, and nothing that depends on its attitude.
    private bool TryBall(in CraftPose pose, out PressureReading reading)
    {
        (double rx, double ry) = (_perOffset * pose.OffsetXMetres, _perOffset * pose.OffsetYMetres);
        double a = rx * rx + ry * ry;
        AtlasLight.On(pose.VelocityMetresPerSecond, out AtlasLight light);
        AtlasPiece? piece = _plain.At(a, 0, 1);
        reading = default;
        if (piece is not { IsLine: true } || !light.IsWithin(_largestSlant))
        {
            return false;
        }
        AtlasLanes v = AtlasLanes.From(piece.ValueOnLine(a));
        Vec3 force = new(v.Q0 * rx, v.Q0 * ry, v.Q2);
        Vec3 torque = new(-(v.Q3 * ry), v.Q3 * rx, 0);
        (double power, double absorbed) = (v.Q6, v.Q7);
        if (light.IsSlanted)
        {
            double offset = Math.Sqrt(a);
            if (_plainSlants.At(offset, 0, 1) is not { IsLine: true } slant)
            {
                return false;
            }
            double inverse = offset > 0 ? 1 / offset : 0;
            (double ex, double ey) = offset > 0 ? (inverse * rx, inverse * ry) : (1, 0);
            AtlasLanes c = AtlasLanes.From(AtlasSlant.ChangeOfBall(slant, offset, ex, ey, light));
            force += new Vec3(ex * c.Q0 - ey * c.Q1, ey * c.Q0 + ex * c.Q1, c.Q2);
            torque += new Vec3(ex * c.Q3 - ey * c.Q4, ey * c.Q3 + ex * c.Q4, c.Q5);
            force += Vec3.Cross(light.Turn, force);
            torque += Vec3.Cross(light.Turn, torque);
            (power, absorbed) = (power + c.Q6, absorbed + c.Q7);
        }
        double watts = _powerWatts * light.Doppler;
        double newtons = 1 / Illumination.LightSpeed * watts;
        reading = new(newtons * force, newtons * torque, watts * power, watts * absorbed, _error);
        return true;
    }

    /// <inheritdoc/>
    public PressureDerivatives Differentiate(in CraftPose pose)
    {
        if (pose.BeamScale != 1 || !TryPlace(pose, out AtlasPlace place) || place.Slant is not null)
        {
            return _outside.Differentiate(pose);
        }
        AtlasSlopes slopes = new(place, _perOffset, _perSine);
        double watts = _powerWatts * place.Light.Doppler;
        return slopes.Read(watts / Illumination.LightSpeed, watts, _slopeError);
    }

    /// <summary>Finds the place of a pose in the table; false where the table does not serve.</summary>
    private bool TryPlace(in CraftPose pose, out AtlasPlace place)
    {
        place = default;
        ref AtlasPlace at = ref place;
        AtlasLight.On(pose.VelocityMetresPerSecond, out at.Light);
        if (!at.Light.IsWithin(_largestSlant) || !(pose.BeamScale > 0))
        {
            return false;
        }
        (double x, double y) = (pose.OffsetXMetres, pose.OffsetYMetres);
        if (!_isBall)
        {
            Vec3 axis = pose.BeamFromBody.Column2;
            (double armX, double armY) = at.Light.Across(_shift * axis);
            (x, y) = (x + armX, y + armY);
            axis -= Vec3.Cross(at.Light.Turn, axis);
            (at.Tx, at.Ty, at.Nz) = (_perSine * axis.X, _perSine * axis.Y, axis.Z);
            if (!(axis.Z > 0))
            {
                return false;
            }
        }
        at.Rx = _perOffset * x;
        at.Ry = _perOffset * y;
        at.A = at.Rx * at.Rx + at.Ry * at.Ry;
        at.B = at.Tx * at.Tx + at.Ty * at.Ty;
        at.C = at.Rx * at.Tx + at.Ry * at.Ty;
        at.W = 1;
        AtlasPieces pieces = _plain;
        AtlasPieces slants = _plainSlants;
        if (pose.BeamScale != 1)
        {
            at.W = 1 / pose.BeamScale;
            (pieces, slants) = (_scaled, _scaledSlants);
        }
        at.Piece = pieces.At(at.A, at.B, at.W)!;
        if (at.Piece is null)
        {
            return false;
        }
        if (at.Light.IsSlanted)
        {
            at.Slant = slants.At(Math.Sqrt(at.A), Math.Sqrt(at.B), at.W);
            return at.Slant is not null;
        }
        return true;
    }
}

/// <summary>A pose in the coordinates of the atlas.</summary>
internal struct AtlasPlace
{
    public AtlasPiece Piece;
    public AtlasPiece? Slant;
    public AtlasLight Light;
    public double Rx;
    public double Ry;
    public double Tx;
    public double Ty;
    public double Nz;
    public double A;
    public double B;
    public double C;
    public double W;
}
