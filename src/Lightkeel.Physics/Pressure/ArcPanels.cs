using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Quadrature;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure;

/// <summary>
/// Adaptive quadrature of a partly lit surface, or of a beam with kinks: panels over meridian and lit arc, split where
/// the error is, so that the terminator is a panel edge in closed form and never cuts through nodes.
/// </summary>
internal sealed class ArcPanels<T, TProfile, TResponse>
    where T : struct, IScalar<T>
    where TProfile : struct, IBeamProfile
    where TResponse : struct, ISurfaceResponse
{
    private const int PanelLimit = 8000;
    private const int FineAzimuths = 16;
    private const int CoarseAzimuths = 8;
    private readonly GaussKronrod _meridian = GaussKronrod.All[0];
    private readonly SurfacePlan _plan;
    private readonly TProfile _profile;
    private readonly TResponse _response;
    private readonly SurfaceLight<T> _light;
    private readonly double _side;
    private readonly ErrorScale _scale;
    private readonly Vec3 _direction;
    private readonly Vec3 _axisFromOrigin;
    private readonly AxisMeeting? _axisMeeting;
    private readonly double[] _cosines = new double[FineAzimuths + CoarseAzimuths];
    private readonly double[] _sines = new double[FineAzimuths + CoarseAzimuths];
    private readonly double[] _weights = new double[FineAzimuths + CoarseAzimuths];

    public ArcPanels(
        SurfacePlan plan,
        TProfile profile,
        TResponse response,
        in SurfaceLight<T> light,
        in SurfaceLight<F64> plain,
        double side,
        in ErrorScale scale
    )
    {
        (_plan, _profile, _response, _light, _side, _scale) = (plan, profile, response, light, side, scale);
        _direction = new(plain.Direction.X.Value, plain.Direction.Y.Value, plain.Direction.Z.Value);
        Vec3 acrossX = new(plain.AcrossX.X.Value, plain.AcrossX.Y.Value, plain.AcrossX.Z.Value);
        Vec3 acrossY = new(plain.AcrossY.X.Value, plain.AcrossY.Y.Value, plain.AcrossY.Z.Value);
        _axisMeeting = AxisMeeting.Of(plan, plain);
        _axisFromOrigin = -plain.OriginX.Value * acrossX - plain.OriginY.Value * acrossY;
    }

    /// <summary>Computes the surface's answer.</summary>
    /// <exception cref="PressureUnavailableException">The panel limit was reached first; the message gives the accuracy obtained.</exception>
    public SurfaceAnswer Integrate(double accuracy)
    {
        List<ArcPanel> panels = [.. FirstPanels().Select(Measure)];
        while (true)
        {
            SurfaceAnswer total = default;
            double error = 0;
            foreach (ArcPanel panel in panels)
            {
                total = new(total.Value + panel.Answer.Value, total.Slope + panel.Answer.Slope, 0);
                error += panel.Error;
            }
            double size = _scale.Size(total);
            if (error <= accuracy * size)
            {
                return total with { RelativeError = Math.Max(error / size, 1e-15) };
            }
            if (panels.Count > PanelLimit)
            {
                throw new PressureUnavailableException(
                    FormattableString.Invariant(
                        $"Surface '{_plan.Surface.Name}': the light pressure converged to a relative accuracy of {error / size:G2} only; {accuracy:G2} was asked. Ask for less (--accuracy), or give the beam a smoother profile."
                    )
                );
            }
            double share = 0.5 * accuracy * size / panels.Count;
            List<ArcPanel> next = new(2 * panels.Count);
            foreach (ArcPanel panel in panels)
            {
                if (panel.Error > share)
                {
                    next.AddRange(panel.Split().Select(Measure));
                }
                else
                {
                    next.Add(panel);
                }
            }
            panels = next;
        }
    }

    private IEnumerable<ArcPanel> FirstPanels()
    {
        for (int p = 0; p < _plan.Pieces.Count; p++)
        {
            List<double> events = _plan.IsSphere
                ? []
                : LitArc.Events(_plan.Surface.Shape, p, _plan.Pieces[p], _direction);
            foreach (ArcStretch stretch in Cut(p, events))
            {
                (double middle, _) = stretch.At(0.5);
                if (ArcAt(_plan.Surface.Shape.At(p, middle)).HalfWidthRadians > 0)
                {
                    yield return new(stretch, 0, 1, -1, -0.5);
                    yield return new(stretch, 0, 1, -0.5, 0);
                    yield return new(stretch, 0, 1, 0, 0.5);
                    yield return new(stretch, 0, 1, 0.5, 1);
                }
            }
        }
    }

    // Stretches between the piece's ends, the plan's own cuts, the ring through the beam axis and the events of the lit arc.
    private List<ArcStretch> Cut(int piece, List<double> events)
    {
        SortedSet<double> edges = [.. events];
        foreach ((int p, double start, double end) in _plan.Stretches)
        {
            if (p == piece)
            {
                edges.Add(start);
                edges.Add(end);
            }
        }
        if (_axisMeeting is { } meeting && meeting.Piece == piece)
        {
            edges.Add(meeting.Parameter);
        }
        double[] at = [.. edges];
        List<ArcStretch> stretches = [];
        for (int i = 0; i + 1 < at.Length; i++)
        {
            stretches.Add(new(piece, at[i], at[i + 1], events.Contains(at[i]), events.Contains(at[i + 1])));
        }
        return stretches;
    }

    // Full rings are cut where the beam's axis meets the surface, so that a cone point there lies on panel corners.
    private double FullRingCenter =>
        _axisMeeting is { } meeting ? meeting.AzimuthRadians : Math.Atan2(_axisFromOrigin.Y, _axisFromOrigin.X);

    private LitArc ArcAt(in MeridianPoint point) =>
        _plan.IsSphere || _plan.Surface.Shape.IsFlat
            ? new(FullRingCenter, Math.PI)
            : LitArc.Of(point, _side, _direction, FullRingCenter);

    private ArcPanel Measure(ArcPanel panel)
    {
        GaussLegendre fineRule = GaussLegendre.Order(FineAzimuths);
        GaussLegendre coarseRule = GaussLegendre.Order(CoarseAzimuths);
        double half = 0.5 * (panel.S1 - panel.S0);
        SurfaceMoments<T> fine = default;
        SurfaceMoments<T> fewerRings = default;
        SurfaceMoments<T> fewerAzimuths = default;
        for (int i = 0; i < _meridian.Count; i++)
        {
            (double u, double rate) = panel.Stretch.At(panel.S0 + half * (1 + _meridian.Nodes[i]));
            MeridianPoint point = _plan.Surface.Shape.At(panel.Stretch.Piece, u);
            LitArc arc = ArcAt(point);
            double area = half * rate * point.RadiusMetres * point.ArcRate * arc.HalfWidthRadians;
            Ring ring = new(point, area * _meridian.KronrodWeights[i], area * _meridian.GaussWeights[i]);
            Fill(arc, panel, fineRule, 0);
            Fill(arc, panel, coarseRule, FineAzimuths);
            RingSums<T> all = Sweep(ring, 0, FineAzimuths);
            RingSums<T> few = Sweep(ring, FineAzimuths, CoarseAzimuths);
            fine.Add(all, ring, _side, ring.FineWeight, TResponse.PushesAlongBeam);
            fewerAzimuths.Add(few, ring, _side, ring.FineWeight, TResponse.PushesAlongBeam);
            fewerRings.Add(all, ring, _side, ring.CoarseWeight, TResponse.PushesAlongBeam);
        }
        (UnitWrench value, UnitWrench slope) = UnitWrench.Read(fine, _light, _response.Absorption);
        (UnitWrench ringsValue, UnitWrench ringsSlope) = UnitWrench.Read(fewerRings, _light, _response.Absorption);
        (UnitWrench aroundValue, UnitWrench aroundSlope) = UnitWrench.Read(fewerAzimuths, _light, _response.Absorption);
        double size = Math.Max(_scale.Measure(value, slope), 1e-300);
        return panel with
        {
            Answer = new(value, slope, 0),
            MeridianError = size * _scale.PanelCredit(_scale.Measure(value - ringsValue, slope - ringsSlope) / size),
            AzimuthError = size * _scale.PanelCredit(_scale.Measure(value - aroundValue, slope - aroundSlope) / size),
        };
    }

    private void Fill(in LitArc arc, in ArcPanel panel, GaussLegendre rule, int at)
    {
        double half = 0.5 * (panel.Xi1 - panel.Xi0);
        for (int j = 0; j < rule.Count; j++)
        {
            double xi = panel.Xi0 + half * (1 + rule.Nodes[j]);
            (_sines[at + j], _cosines[at + j]) = Math.SinCos(arc.CenterRadians + arc.HalfWidthRadians * xi);
            _weights[at + j] = half * rule.Weights[j];
        }
    }

    private RingSums<T> Sweep(in Ring ring, int from, int count) =>
        RingSums<T>.Sweep<TProfile, TResponse, OwnWeights>(
            _profile,
            _response,
            _light,
            ring,
            _side,
            _cosines.AsSpan(from, count),
            _sines.AsSpan(from, count),
            _weights.AsSpan(from, count)
        );
}
