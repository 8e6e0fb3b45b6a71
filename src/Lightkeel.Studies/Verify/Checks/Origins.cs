namespace Lightkeel.Studies.Verify.Checks;

/// <summary>How the expected values of the lists came to be known; the scripts lie in benchmarks/peers/oracles.</summary>
internal static class Origins
{
    public static ExpectedOrigin ClosedForm { get; } = ExpectedOrigin.Computed("closed form, mpmath 1.2.1, 50 digits");

    public static ExpectedOrigin Mpmath { get; } = ExpectedOrigin.Computed("mpmath 1.2.1, 40 digits or more");

    public static ExpectedOrigin Numpy { get; } = ExpectedOrigin.Computed("NumPy 1.24.2");

    public static ExpectedOrigin Scipy { get; } = ExpectedOrigin.Computed("SciPy 1.10.1");

    public static ExpectedOrigin ScipyRide { get; } =
        ExpectedOrigin.Computed("SciPy 1.10.1 DOP853 at 1e-13 on four-vectors and boost matrices");

    public static ExpectedOrigin Quadpack { get; } =
        ExpectedOrigin.Computed("SciPy 1.10.1, adaptive quadrature (QUADPACK) and root search");
}
