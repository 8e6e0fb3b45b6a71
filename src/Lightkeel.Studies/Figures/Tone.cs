namespace Lightkeel.Studies.Figures;

/// <summary>A colour by its part in the figure. Each tone of a line has a dash and a mark of its own for print in grey.</summary>
public enum Tone
{
    /// <summary>The next tone that the panel has not used.</summary>
    Automatic,

    /// <summary>Deep blue: the main thing.</summary>
    Indigo,

    /// <summary>Red-orange: what it is compared with.</summary>
    Ember,

    /// <summary>Blue-green.</summary>
    Teal,

    /// <summary>Yellow-orange.</summary>
    Amber,

    /// <summary>Red-violet.</summary>
    Plum,

    /// <summary>Light blue.</summary>
    Sky,

    /// <summary>Near black: limits, outlines.</summary>
    Ink,

    /// <summary>Middle grey: context.</summary>
    Grey,

    /// <summary>Light grey: background.</summary>
    Mist,
}

/// <summary>Colours of a heat map.</summary>
public enum HeatColours
{
    /// <summary>Dark to light with the value.</summary>
    Sequential,

    /// <summary>Blue below zero, grey at zero, orange above.</summary>
    Diverging,
}

/// <summary>Dash of a line.</summary>
public enum LineDash
{
    /// <summary>The dash of its tone.</summary>
    Automatic,

    /// <summary>No gaps.</summary>
    Solid,

    /// <summary>Long dashes.</summary>
    Dashed,

    /// <summary>Dots.</summary>
    Dotted,
}
