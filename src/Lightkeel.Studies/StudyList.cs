using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Check;
using Lightkeel.Studies.Map;
using Lightkeel.Studies.Noise;
using Lightkeel.Studies.Probe;
using Lightkeel.Studies.Ride;
using Lightkeel.Studies.Well;

namespace Lightkeel.Studies;

/// <summary>The studies as delivered: adding one adds a line here, and with it a command, a page and a reference entry.</summary>
public static class StudyList
{
    /// <summary>A catalogue of all studies.</summary>
    public static StudyCatalogue All() =>
        new(new CheckStudy(), new ProbeStudy(), new MapStudy(), new WellStudy(), new RideStudy(), new NoiseStudy());
}
