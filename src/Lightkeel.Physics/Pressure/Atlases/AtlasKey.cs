using System.Buffers.Binary;
using System.Runtime.Intrinsics;
using System.Security.Cryptography;
using System.Text;
using Lightkeel.Numerics.LinearAlgebra;
using Lightkeel.Numerics.Scalars;
using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;
using Lightkeel.Physics.Shapes;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>
/// Names an atlas by what it is made of: surfaces and their places from the centre of mass, profile and wavelength of the beam,
/// box, accuracy, and the kind of arithmetic. Power, mass and inertia have no say.
/// </summary>
internal sealed class AtlasKey
{
    private readonly List<byte> _bytes = [];

    private AtlasKey() { }

    /// <summary>SHA-256 of the content in hexadecimal; null when a part of it has no name of its own.</summary>
    public static string? Of(SailCraft craft, Beam beam, AtlasBox box, double accuracy)
    {
        AtlasKey key = new();
        key.Add("lightkeel atlas");
        // Rounding may differ where vectors are made of narrower ones.
        key.Add(AtlasFile.Version, Vector512.IsHardwareAccelerated ? 1 : 0);
        key.Add(accuracy, box.OffsetMetres, box.TiltRadians, box.SmallestScale, box.LargestScale);
        key.Add(beam.WavelengthMetres);
        if (!key.TryAdd(beam.Profile))
        {
            return null;
        }
        foreach (PlacedSurface surface in craft.Surfaces)
        {
            key.Add(surface, craft.Mass);
        }
        return Convert.ToHexStringLower(
            SHA256.HashData(System.Runtime.InteropServices.CollectionsMarshal.AsSpan(key._bytes))
        );
    }

    private void Add(PlacedSurface surface, MassProperties mass)
    {
        Add("surface");
        Mat3 turn = surface.BodyFromSurface;
        foreach (Vec3 v in (Vec3[])[surface.OriginMetres - mass.CenterOfMassMetres, turn.Row0, turn.Row1, turn.Row2])
        {
            Add(v.X, v.Y, v.Z);
        }
        // Only constant shares have an atlas.
        Optics.OpticalCoefficients c = surface.Optics.At(1);
        Add(c.Specular, c.Diffuse, c.Absorbed, c.EmissivityLit, c.EmissivityBack);
        Add(surface.Shape);
    }

    // A meridian is known by five points of each piece: pieces are straight, arcs, parabolas or cubics.
    private void Add(SurfaceOfRevolution shape)
    {
        Add(shape.Kind);
        Add(shape.ClosedSphereRadiusMetres ?? 0, shape.IsConcaveToLaser ? 1 : 0, shape.IsFlat ? 1 : 0);
        for (int i = 0; i < shape.Pieces.Count; i++)
        {
            MeridianPiece piece = shape.Pieces[i];
            for (int n = 0; n < 5; n++)
            {
                MeridianPoint p = shape.At(i, piece.Start + 0.25 * n * (piece.End - piece.Start));
                Add(p.RadiusMetres, p.HeightMetres, p.NormalRadial, p.NormalAxial, p.ArcRate);
            }
        }
    }

    private bool TryAdd(IBeamProfile profile)
    {
        Add(profile.Kind);
        switch (profile)
        {
            case GaussianProfile p:
                Add(p.WaistMetres);
                return true;
            case SuperGaussianProfile p:
                Add(p.WaistMetres, p.Order);
                return true;
            case RingProfile p:
                Add(p.RadiusMetres, p.WidthMetres);
                return true;
            case LaguerreGaussProfile p:
                Add(p.WaistMetres, p.RadialOrder, p.AzimuthalOrder);
                return true;
            case RadialTableProfile p:
                foreach (double radius in p.RadiiMetres)
                {
                    Add(radius, p.UnitIrradiance(new F64(radius), new F64(0)).Value);
                }
                return true;
            case SumProfile p:
                return p.Parts.All(part =>
                {
                    Add(part.Share, part.OffsetXMetres, part.OffsetYMetres);
                    return TryAdd(part.Profile);
                });
            default:
                return false;
        }
    }

    private void Add(string text)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(text);
        Add(bytes.Length);
        _bytes.AddRange(bytes);
    }

    private void Add(params ReadOnlySpan<double> values)
    {
        Span<byte> eight = stackalloc byte[8];
        foreach (double value in values)
        {
            BinaryPrimitives.WriteDoubleLittleEndian(eight, value);
            _bytes.AddRange(eight);
        }
    }
}
