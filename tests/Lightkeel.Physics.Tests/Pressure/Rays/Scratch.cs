using System.Diagnostics;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Optics;
using Lightkeel.Physics.Pressure;
using Lightkeel.Physics.Pressure.Rays;
using Lightkeel.Physics.Shapes;
using Xunit;
using static Lightkeel.Physics.Tests.Scenes;

namespace Lightkeel.Physics.Tests.Pressure.Rays;

public sealed class Scratch
{
    [Fact]
    public void Go()
    {
        Beam beam = UnitBeam(new GaussianProfile(0.8));
        void Try(string name, SurfaceOfRevolution shape, CraftPose pose, double acc, bool quad)
        {
            SailCraft craft = SingleSail(shape, new(0.02, 0, -0.3), new(0.9, 0.02, 0.08, 0.1, 0.4));
            RayPressure rays = new(craft, beam, acc);
            Stopwatch w = Stopwatch.StartNew();
            try
            {
                PressureReading r = rays.Evaluate(pose);
                double ms = w.Elapsed.TotalMilliseconds;
                w.Restart();
                r = rays.Evaluate(pose);
                double ms2 = w.Elapsed.TotalMilliseconds;
                Console.WriteLine($"{name} F {r.ForceNewtons} err {r.RelativeError:G2} ms {ms:F1} {ms2:F1}");
                if (quad)
                {
                    PressureReading q = new SurfaceQuadrature(craft, beam, 1e-11).Evaluate(pose);
                    Console.WriteLine($"   diff {(q.ForceNewtons - r.ForceNewtons).Length / q.ForceNewtons.Length:G2} {(q.TorqueNewtonMetres - r.TorqueNewtonMetres).Length / q.ForceNewtons.Length:G2} {q.InterceptedWatts/r.InterceptedWatts-1:G2}");
                }
            }
            catch (PressureUnavailableException e) { Console.WriteLine($"{name} {e.Message} ms {w.Elapsed.TotalMilliseconds:F1}"); }
            w.Restart();
            try
            {
                PressureDerivatives d = rays.Differentiate(pose);
                Console.WriteLine($"   slopes err {d.RelativeError:G2} ms {w.Elapsed.TotalMilliseconds:F1}");
                if (quad)
                {
                    PressureDerivatives q = new SurfaceQuadrature(craft, beam, 1e-11).Differentiate(pose);
                    double[][] a = d.LateralJacobian(), b = q.LateralJacobian();
                    for (int i = 0; i < 4; i++) Console.WriteLine("   " + string.Join(" ", a[i].Zip(b[i], (x, y) => $"{x - y:G2}/{y:G2}")));
                }
            }
            catch (PressureUnavailableException e) { Console.WriteLine($"   slopes {e.Message} ms {w.Elapsed.TotalMilliseconds:F1}"); }
        }
        CraftPose small = CraftPose.From(0.1, 0.05, 0.03, -0.02);
        CraftPose large = CraftPose.From(0.15, -0.1, 0.5, 0.3);
        Try("cone V50", new Cone(1, Degrees(50), LaserSide.Vertex), small, 1e-7, true);
        Try("cone V25 large", new Cone(1, Degrees(25), LaserSide.Vertex), large, 1e-6, true);
        Try("sphere", new Sphere(0.9), small, 1e-7, true);
        Try("cap", new SphericalCap(1.2, Degrees(50), LaserSide.Vertex), large, 1e-6, true);
        Try("parab", new Paraboloid(0.8, 0.9, LaserSide.Vertex), large, 1e-6, true);
        Try("frustum", new Cone(1, Degrees(60), LaserSide.Vertex, 0.4), small, 1e-7, true);
        Try("profile", new Profile([0, 0.3, 0.6, 0.9], [0, 0.05, 0.18, 0.4]), small, 1e-7, true);
        Try("cone M40 axis", new Cone(1, Degrees(40), LaserSide.Mouth), CraftPose.OnAxis, 1e-7, false);
        Try("cone M40", new Cone(1, Degrees(40), LaserSide.Mouth), small, 1e-7, false);
        Try("cone M20", new Cone(1, Degrees(20), LaserSide.Mouth), small, 1e-7, false);
        Try("cone M45", new Cone(1, Degrees(45), LaserSide.Mouth), small, 1e-7, false);
        Try("bowl 80", new SphericalCap(1, Degrees(80), LaserSide.Mouth), small, 1e-6, false);
        Try("parab deep", new Paraboloid(0.3, 1, LaserSide.Mouth), small, 1e-7, false);
        Try("frustum M", new Cone(1, Degrees(40), LaserSide.Mouth, 0.3), small, 1e-7, false);
    }
}
