using Lightkeel.Studies.Capture;
using Lightkeel.Studies.Catalogue;
using Lightkeel.Studies.Check;
using Lightkeel.Studies.Map;
using Lightkeel.Studies.Materials;
using Lightkeel.Studies.Noise;
using Lightkeel.Studies.Probe;
using Lightkeel.Studies.Ride;
using Lightkeel.Studies.Search;
using Lightkeel.Studies.Sensitivity;
using Lightkeel.Studies.Verify;
using Lightkeel.Studies.Well;

namespace Lightkeel.Studies;

/// <summary>The studies as delivered: adding one adds a line here, and with it a command, a page and a reference entry.</summary>
public static class StudyList
{
    /// <summary>A catalogue of all studies.</summary>
    public static StudyCatalogue All() =>
        new(
            new CheckStudy(),
            new ProbeStudy(),
            new MapStudy(),
            new SensitivityStudy(),
            new WellStudy(),
            new CaptureStudy(),
            new RideStudy(),
            new NoiseStudy(),
            new SearchStudy(),
            new MaterialsStudy(),
            new VerifyStudy()
        );
}
