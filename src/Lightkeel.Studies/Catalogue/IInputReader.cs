namespace Lightkeel.Studies.Catalogue;

/// <summary>What turning text into input needs from outside the catalogue.</summary>
public interface IInputReader
{
    /// <summary>Reads a quantity.</summary>
    /// <param name="text">Text such as <c>1.2 m</c>.</param>
    /// <param name="unit">A unit of the dimension it must have.</param>
    /// <param name="siValue">Its value in SI units, finite; 0 when it could not be read.</param>
    /// <returns>What is wrong with it, or null.</returns>
    string? ReadQuantity(string text, string unit, out double siValue);

    /// <summary>Opens a design.</summary>
    /// <param name="request">Which and how.</param>
    /// <exception cref="InputRefusedException">It cannot be read or is wrong; lists all its faults.</exception>
    IOpenDesign OpenDesign(DesignRequest request);
}
