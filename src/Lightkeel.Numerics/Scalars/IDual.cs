namespace Lightkeel.Numerics.Scalars;

/// <summary>A number that carries its derivative along one direction.</summary>
/// <typeparam name="TSelf">The implementing number type.</typeparam>
public interface IDual<TSelf> : IScalar<TSelf>
    where TSelf : struct, IDual<TSelf>
{
    /// <summary>The same value with the same derivative in every lane.</summary>
    static abstract TSelf Variable(double value, double slope);
}
