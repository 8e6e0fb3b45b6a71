namespace Lightkeel.Physics.Motion;

/// <summary>What disturbs the craft's balance, as a function of its own time: the centre of mass wanders in the body.</summary>
/// <remarks>Pure; called from one thread per ride.</remarks>
public interface IImbalance
{
    /// <summary>Centre of mass from its designed place, body axes, m.</summary>
    /// <param name="properSeconds">Proper time of the craft, s.</param>
    (double X, double Y) ShiftMetres(double properSeconds);

    /// <summary>Highest frequency in the shift, Hz; 0 when it is constant.</summary>
    double HighestFrequencyHertz { get; }
}
