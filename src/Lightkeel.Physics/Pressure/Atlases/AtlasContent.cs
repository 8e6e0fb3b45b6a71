namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>How the coordinates of a table are meant.</summary>
internal enum AtlasKind
{
    /// <summary>Offset squared, lean squared and their scalar product: axisymmetric craft and beam.</summary>
    Axisymmetric = 1,

    /// <summary>Offsets along x and y: a ball in any beam.</summary>
    Plane = 2,
}

/// <summary>Everything that an atlas holds beside the engine that it hands over to: what is built, kept and written.</summary>
internal sealed record AtlasContent
{
    public required AtlasKind Kind { get; init; }

    /// <summary>Place along the body axis, from the centre of mass, for which offsets are tabled, m.</summary>
    public required double ShiftMetres { get; init; }

    /// <summary>Largest offset of that place, m.</summary>
    public required double OffsetMetres { get; init; }

    /// <summary>Relative accuracy that was asked for.</summary>
    public required double Accuracy { get; init; }

    /// <summary>Pieces for the beam of designed size.</summary>
    public required IReadOnlyList<AtlasPiece> Plain { get; init; }

    /// <summary>Pieces for beams off their designed size.</summary>
    public required IReadOnlyList<AtlasPiece> Scaled { get; init; }

    /// <summary>Pieces of the slant's derivatives, for the beam of designed size.</summary>
    public required IReadOnlyList<AtlasPiece> PlainSlants { get; init; }

    /// <summary>Pieces of the slant's derivatives, for beams off their designed size.</summary>
    public required IReadOnlyList<AtlasPiece> ScaledSlants { get; init; }

    /// <summary>What it holds and how well it is proven, in offsets of the centre of mass.</summary>
    public required AtlasReport Report { get; init; }

    /// <summary>Accuracy of the quadrature that fills it.</summary>
    public static double FillAccuracy(double accuracy) => Math.Max(AtlasBuild.FillShare * accuracy, 1e-12);
}
