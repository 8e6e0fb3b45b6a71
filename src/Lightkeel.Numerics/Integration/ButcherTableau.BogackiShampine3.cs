namespace Lightkeel.Numerics.Integration;

public sealed partial class ButcherTableau
{
    /// <summary>
    /// Bogacki–Shampine 3(2): four stages of which the last serves the next step, order 3, cubic dense output. For loose
    /// tolerances and right-hand sides that are not smooth.
    /// </summary>
    public static ButcherTableau BogackiShampine3 { get; } =
        new()
        {
            Name = "Bogacki–Shampine 3(2)",
            Order = 3,
            EstimatePower = 3,
            DenseOrder = 3,
            Nodes = [0, 1.0 / 2, 3.0 / 4, 1],
            Stages =
            [
                [],
                [1.0 / 2],
                [0, 3.0 / 4],
                [2.0 / 9, 1.0 / 3, 4.0 / 9],
            ],
            Weights = [2.0 / 9, 1.0 / 3, 4.0 / 9, 0],
            ErrorWeights = [-5.0 / 72, 1.0 / 12, 1.0 / 9, -1.0 / 8],
            Source = "Applied Mathematics Letters 2(4), 321–325 (1989), doi:10.1016/0893-9659(89)90079-7",
        };
}
