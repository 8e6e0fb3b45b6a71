using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using Lightkeel.Numerics.LinearAlgebra;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>Derivatives of the atlas by offset and tilt, by the chain rule through its invariants.</summary>
internal readonly struct AtlasSlopes
{
    private readonly AtlasPlace _at;
    private readonly double _perOffset;
    private readonly double _perSine;
    private readonly Vector512<double> _value;
    private readonly Vector512<double> _byA;
    private readonly Vector512<double> _byB;
    private readonly Vector512<double> _byC;

    public AtlasSlopes(in AtlasPlace place, double perOffset, double perSine)
    {
        (_at, _perOffset, _perSine) = (place, perOffset, perSine);
        (_value, _byA, _byB, _byC) = Sums(place.Piece, place.A, place.B, place.C);
    }

    /// <summary>The derivatives.</summary>
    /// <param name="newtons">Force for one unit.</param>
    /// <param name="watts">Power for one unit.</param>
    /// <param name="error">Vouched relative error of the values.</param>
    public PressureDerivatives Read(double newtons, double watts, double error)
    {
        // A further turn about beam x or y moves the axis n across by e × n.
        double lean = _perSine * _at.Nz;
        return new(
            Along(_perOffset, 0, 0, 0, newtons, watts, error),
            Along(0, _perOffset, 0, 0, newtons, watts, error),
            Along(0, 0, 0, -lean, newtons, watts, error),
            Along(0, 0, lean, 0, newtons, watts, error),
            error
        );
    }

    // The eight quantities and their derivatives by a, b and c; dp is the derivative of C_m by p = a b.
    private static (Vector512<double> Value, Vector512<double> ByA, Vector512<double> ByB, Vector512<double> ByC) Sums(
        AtlasPiece piece,
        double a,
        double b,
        double c
    )
    {
        AtlasBlock block = piece.Plain;
        AtlasRegion region = piece.Region;
        (AtlasSpan spanA, AtlasSpan spanB) = (new(region.A0, region.A1), new(region.B0, region.B1));
        (int termsA, int termsB) = (Math.Max(2, block.TermsA), Math.Max(2, block.TermsB));
        Span<double> inA = stackalloc double[AtlasPiece.MostTerms];
        Span<double> inB = stackalloc double[AtlasPiece.MostTerms];
        Span<double> slopeA = stackalloc double[AtlasPiece.MostTerms];
        Span<double> slopeB = stackalloc double[AtlasPiece.MostTerms];
        ChebyshevBasis.Fill(inA, termsA, spanA.Unit(a));
        ChebyshevBasis.Fill(inB, termsB, spanB.Unit(b));
        ChebyshevBasis.FillSlopes(slopeA, inA, termsA, spanA.Unit(a), spanA.Scale);
        ChebyshevBasis.FillSlopes(slopeB, inB, termsB, spanB.Unit(b), spanB.Scale);
        ref double next = ref MemoryMarshal.GetReference(block.Coefficients);
        Vector512<double> v = default;
        Vector512<double> byA = default;
        Vector512<double> byB = default;
        Vector512<double> byC = default;
        double p = a * b;
        (double c0, double c1) = (0, 1);
        (double dc0, double dc1) = (0, 0);
        (double dp0, double dp1) = (0, 0);
        int at = 0;
        for (int m = 0; m < block.Orders; m++)
        {
            int rows = block.Counts[at++];
            Vector512<double> g = default;
            Vector512<double> gA = default;
            Vector512<double> gB = default;
            for (int j = 0; j < rows; j++)
            {
                int count = block.Counts[at++];
                Vector512<double> row = AtlasBlock.Row(ref next, inA, count);
                Vector512<double> rowA = AtlasBlock.Row(ref next, slopeA, count);
                next = ref Unsafe.Add(ref next, AtlasBlock.Lanes * count);
                g += inB[j] * row;
                gA += inB[j] * rowA;
                gB += slopeB[j] * row;
            }
            v += c1 * g;
            byA += c1 * gA + b * dp1 * g;
            byB += c1 * gB + a * dp1 * g;
            byC += dc1 * g;
            (double nc, double ndc, double ndp) =
                m == 0
                    ? (c, 1.0, 0.0)
                    : (2 * c * c1 - p * c0, 2 * c1 + 2 * c * dc1 - p * dc0, 2 * c * dp1 - c0 - p * dp0);
            (c0, c1, dc0, dc1, dp0, dp1) = (c1, nc, dc1, ndc, dp1, ndp);
        }
        return (v, byA, byB, byC);
    }

    private PressureReading Along(
        double rx,
        double ry,
        double tx,
        double ty,
        double newtons,
        double watts,
        double error
    )
    {
        double a = 2 * (_at.Rx * rx + _at.Ry * ry);
        double b = 2 * (_at.Tx * tx + _at.Ty * ty);
        double c = rx * _at.Tx + ry * _at.Ty + _at.Rx * tx + _at.Ry * ty;
        Vector512<double> d = a * _byA + b * _byB + c * _byC;
        Vec3 force = new(
            d[0] * _at.Rx + d[1] * _at.Tx + _value[0] * rx + _value[1] * tx,
            d[0] * _at.Ry + d[1] * _at.Ty + _value[0] * ry + _value[1] * ty,
            d[2]
        );
        double twist = _at.Rx * _at.Ty - _at.Ry * _at.Tx;
        double turned = rx * _at.Ty - ry * _at.Tx + _at.Rx * ty - _at.Ry * tx;
        Vec3 torque = new(
            -(d[3] * _at.Ry + d[4] * _at.Ty + _value[3] * ry + _value[4] * ty),
            d[3] * _at.Rx + d[4] * _at.Tx + _value[3] * rx + _value[4] * tx,
            d[5] * twist + _value[5] * turned
        );
        return new(newtons * force, newtons * torque, watts * d[6], watts * d[7], error);
    }
}
