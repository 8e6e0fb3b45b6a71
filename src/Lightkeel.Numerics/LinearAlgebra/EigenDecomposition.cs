using System.Numerics;

namespace Lightkeel.Numerics.LinearAlgebra;

/// <summary>
/// Eigenvalues of a small real matrix with right and left eigenvectors, condition numbers and error bounds. In the order
/// of falling real part, then falling imaginary part, so that the fastest-growing mode comes first and conjugates follow
/// each other.
/// </summary>
public sealed class EigenDecomposition
{
    private readonly Complex[] _values;
    private readonly Complex[][] _right;
    private readonly Complex[][] _left;
    private readonly double[] _conditions;
    private readonly double[] _errorBounds;

    internal EigenDecomposition(
        Complex[] values,
        Complex[][] right,
        Complex[][] left,
        double[] conditions,
        double[] errorBounds,
        double backwardError
    )
    {
        (_values, _right, _left) = (values, right, left);
        (_conditions, _errorBounds, BackwardError) = (conditions, errorBounds, backwardError);
    }

    /// <summary>The largest condition number stated, 1/ε ≈ 4.5e15: the eigenvalue is defective to working accuracy.</summary>
    public const double LargestCondition = 1 / 2.2204460492503131e-16;

    /// <summary>Number of rows of the matrix.</summary>
    public int Order => _values.Length;

    /// <summary>Eigenvalues.</summary>
    public IReadOnlyList<Complex> Values => _values;

    /// <summary>
    /// Condition number of each eigenvalue, ‖x‖‖y‖/|yᴴx| ≥ 1 with its right and left vectors: how far it moves for a change
    /// of the matrix, in units of the change's norm. At most <see cref="LargestCondition"/>. For a multiple eigenvalue with
    /// a full set of vectors it belongs to the vectors returned.
    /// </summary>
    public IReadOnlyList<double> Conditions => _conditions;

    /// <summary>
    /// How far each computed eigenvalue may be from an exact one because of rounding, in the unit of the matrix: to first
    /// order in rounding where the condition is good, by a bound for any matrix where it is bad.
    /// </summary>
    public IReadOnlyList<double> ErrorBounds => _errorBounds;

    /// <summary>Largest residual ‖Ax − λx‖/(‖A‖‖x‖), of the balanced matrix.</summary>
    public double BackwardError { get; }

    /// <summary>Right eigenvector A x = λ x, of Euclidean length 1; real eigenvalues have real vectors.</summary>
    /// <param name="index">Index of the eigenvalue.</param>
    public IReadOnlyList<Complex> RightVector(int index) => _right[index];

    /// <summary>Left eigenvector yᴴ A = λ yᴴ, of Euclidean length 1, with yᴴx real and not negative.</summary>
    /// <param name="index">Index of the eigenvalue.</param>
    public IReadOnlyList<Complex> LeftVector(int index) => _left[index];
}
