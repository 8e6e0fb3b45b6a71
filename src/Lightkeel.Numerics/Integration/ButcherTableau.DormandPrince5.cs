namespace Lightkeel.Numerics.Integration;

public sealed partial class ButcherTableau
{
    /// <summary>
    /// Dormand–Prince 5(4): seven stages of which the last serves the next step, order 5, dense output of order 4 at no
    /// further cost. The method for moderate tolerances.
    /// </summary>
    public static ButcherTableau DormandPrince5 { get; } =
        new()
        {
            Name = "Dormand–Prince 5(4)",
            Order = 5,
            EstimatePower = 5,
            DenseOrder = 4,
            Nodes = [0, 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9, 1, 1],
            Stages =
            [
                [],
                [1.0 / 5],
                [3.0 / 40, 9.0 / 40],
                [44.0 / 45, -56.0 / 15, 32.0 / 9],
                [19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729],
                [9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656],
                [35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84],
            ],
            Weights = [35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84, 0],
            ErrorWeights = [71.0 / 57600, 0, -71.0 / 16695, 71.0 / 1920, -17253.0 / 339200, 22.0 / 525, -1.0 / 40],
            DenseWeights =
            [
                [
                    -12715105075.0 / 11282082432,
                    0,
                    87487479700.0 / 32700410799,
                    -10690763975.0 / 1880347072,
                    701980252875.0 / 199316789632,
                    -1453857185.0 / 822651844,
                    69997945.0 / 29380423,
                ],
            ],
            Source =
                "Journal of Computational and Applied Mathematics 6(1), 19–26 (1980), "
                + "doi:10.1016/0771-050X(80)90013-3; dense output: Solving Ordinary Differential Equations I: Nonstiff "
                + "Problems, 2nd revised ed., Springer (1993), section II.6, doi:10.1007/978-3-540-78862-1",
        };
}
