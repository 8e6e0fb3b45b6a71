namespace Lightkeel.Physics.Limits.Heat;

/// <summary>How absorption and emission of a film change with its temperature.</summary>
/// <param name="AbsorptionGrowthPerKelvin">b in A(T) = A₀ e^(b(T − T₀)), 1/K, ≥ 0; the share stops at one.</param>
/// <param name="EmissivityExponent">p in ε(T) = ε₀ (T/T₀)^p, −3 … 4; an emissivity stops at one.</param>
/// <param name="ReferenceKelvin">T₀, at which the stated shares hold, K.</param>
public sealed record HeatLaw(double AbsorptionGrowthPerKelvin, double EmissivityExponent, double ReferenceKelvin)
{
    /// <summary>Shares that do not change.</summary>
    public static HeatLaw Constant { get; } = new(0, 0, 300);

    /// <summary>Absorbed share against temperature, in place of the exponential; its ratio to that at T₀ counts; null for none.</summary>
    public ShareTable? Absorption { get; init; }

    /// <summary>Emissivity of the front side against temperature, in place of the power; its ratio to that at T₀ counts; null for none.</summary>
    public ShareTable? EmissivityFront { get; init; }

    /// <summary>The same of the back.</summary>
    public ShareTable? EmissivityBack { get; init; }

    /// <summary>True when a table is used.</summary>
    public bool HasTable => (Absorption ?? EmissivityFront ?? EmissivityBack) is not null;

    /// <summary>True when absorption may grow with temperature.</summary>
    public bool Grows => AbsorptionGrowthPerKelvin > 0 || Absorption is not null;

    /// <summary>True when nothing changes with temperature.</summary>
    public bool IsConstant => AbsorptionGrowthPerKelvin == 0 && EmissivityExponent == 0 && !HasTable;

    /// <summary>Temperatures that all tables cover, K; everything where there is none.</summary>
    public (double Lowest, double Highest) RangeKelvin
    {
        get
        {
            ShareTable[] tables =
            [
                .. ((ShareTable?[])[Absorption, EmissivityFront, EmissivityBack]).OfType<ShareTable>(),
            ];
            return tables.Length == 0
                ? (0, double.PositiveInfinity)
                : (tables.Max(t => t.First), tables.Min(t => t.Last));
        }
    }
}
