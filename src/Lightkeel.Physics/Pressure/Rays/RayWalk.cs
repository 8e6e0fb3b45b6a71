using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Optics;

namespace Lightkeel.Physics.Pressure.Rays;

/// <summary>What one ray of unit power does to the craft, in units of power over the speed of light.</summary>
/// <param name="Signature">Names the sequence of surfaces, sides and stretches that the ray met; 0 when it met nothing.</param>
/// <param name="First">Where it met the craft first, body axes from the centre of mass, m.</param>
/// <param name="Force">Momentum left, body axes.</param>
/// <param name="Torque">Angular momentum left about the centre of mass, body axes, m.</param>
/// <param name="Absorbed">Share absorbed.</param>
/// <param name="Leaving">Share that left, scattered light included.</param>
/// <param name="Stray">Share scattered by sides that may light the craft again, let go here.</param>
/// <param name="Cut">Share cut off at the limits.</param>
internal readonly record struct RayTally(
    ulong Signature,
    Vec3 First,
    Vec3 Force,
    Vec3 Torque,
    double Absorbed,
    double Leaving,
    double Stray,
    double Cut
);

/// <summary>Follows a ray from surface to surface: the mirror share and the passed share exactly, until they leave.</summary>
internal static class RayWalk
{
    /// <summary>Light weaker than this share of the ray's power is cut off and counted.</summary>
    public const double PowerFloor = 1e-12;

    /// <summary>Most stretches of straight light that one ray may fall into.</summary>
    public const int StretchLimit = 4096;

    private const int StackDepth = 64;

    /// <summary>Follows one ray.</summary>
    /// <param name="scene">The craft.</param>
    /// <param name="origin">Where the ray starts, outside the craft.</param>
    /// <param name="direction">Unit direction.</param>
    /// <param name="stretch">Wavelength at the craft over that of the laser.</param>
    [System.Runtime.CompilerServices.MethodImpl(
        System.Runtime.CompilerServices.MethodImplOptions.AggressiveOptimization
    )]
    public static RayTally Follow(RayScene scene, Vec3 origin, Vec3 direction, double stretch)
    {
        Trail trail = default;
        RayHit hit = scene.First(origin, direction, -1);
        if (hit.Surface < 0)
        {
            return default;
        }
        Vec3 first = hit.Point;
        // Passed light waits here while the mirror's share is followed; most craft pass none.
        Stretch[] waiting = [];
        int count = 0;
        Stretch now = new(origin, direction, 1, -1);
        while (true)
        {
            Stretch? mirrored = null;
            if (hit.Surface < 0)
            {
                trail.Leave(now.Power);
            }
            else
            {
                OpticalCoefficients optics = scene.OpticsOf(hit, -Vec3.Dot(hit.Normal, now.Direction), stretch);
                mirrored = trail.Meet(hit, optics, now, scene.SeesCraft(hit));
                if (optics.Passed > 0 && trail.Accept(optics.Passed * now.Power))
                {
                    if (count < StackDepth)
                    {
                        waiting = waiting.Length == 0 ? new Stretch[StackDepth] : waiting;
                        waiting[count++] = new(hit.Point, now.Direction, optics.Passed * now.Power, hit.Surface);
                    }
                    else
                    {
                        trail.CutOff(optics.Passed * now.Power);
                    }
                }
            }
            if (mirrored is { } next && trail.Accept(next.Power))
            {
                now = next;
            }
            else if (count > 0)
            {
                now = waiting[--count];
            }
            else
            {
                return trail.Tally(first);
            }
            hit = scene.First(now.Origin, now.Direction, now.From);
        }
    }

    /// <summary>A stretch of straight light.</summary>
    private readonly record struct Stretch(Vec3 Origin, Vec3 Direction, double Power, int From);

    /// <summary>The sums along a ray.</summary>
    private struct Trail
    {
        private ulong _signature;
        private Vec3 _force;
        private Vec3 _torque;
        private double _absorbed;
        private double _leaving;
        private double _stray;
        private double _cut;
        private int _stretches;

        // dF = (P/c) [ (1 − Ts) d − Rs (d + 2 μ n) − (2/3) (Rd + A e) n ], as at OpticalCoefficients.
        public Stretch? Meet(in RayHit hit, in OpticalCoefficients optics, in Stretch light, bool seesCraft)
        {
            double mu = -Vec3.Dot(hit.Normal, light.Direction);
            Vec3 mirrored = light.Direction + 2 * mu * hit.Normal;
            double even = 2.0 / 3 * (optics.Diffuse + optics.Absorbed * optics.ThermalAsymmetry);
            Vec3 push =
                light.Power * ((1 - optics.Passed) * light.Direction - optics.Specular * mirrored - even * hit.Normal);
            _force += push;
            _torque += Vec3.Cross(hit.Point, push);
            _absorbed += optics.Absorbed * light.Power;
            _leaving += optics.Diffuse * light.Power;
            _stray += seesCraft ? optics.Diffuse * light.Power : 0;
            Sign(1 + 2 * (((ulong)hit.Surface << 20) + (ulong)hit.Piece) + (hit.IsBack ? 1UL : 0));
            double onward = optics.Specular * light.Power;
            return onward > 0 ? new(hit.Point, mirrored.Normalized(), onward, hit.Surface) : null;
        }

        public void Leave(double power)
        {
            _leaving += power;
            Sign(0);
        }

        public void CutOff(double power) => _cut += power;

        /// <summary>True when light of this power is followed; weaker light is cut off.</summary>
        public bool Accept(double power)
        {
            if (power > PowerFloor && _stretches < StretchLimit)
            {
                _stretches++;
                return true;
            }
            _cut += Math.Max(power, 0);
            return false;
        }

        public readonly RayTally Tally(Vec3 first) =>
            new(_signature | 1, first, _force, _torque, _absorbed, _leaving, _stray, _cut);

        // FNV-1a, 64 bits, a word at a time.
        private void Sign(ulong word) =>
            _signature = ((_signature == 0 ? 14695981039346656037UL : _signature) ^ word) * 1099511628211UL;
    }
}
