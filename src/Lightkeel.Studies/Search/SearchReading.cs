using System.Security.Cryptography;
using System.Text;

namespace Lightkeel.Studies.Search;

/// <summary>Writes a run down as a result.</summary>
internal static class SearchReading
{
    private const int MostInstants = 300;

    public static SearchResult Of(SearchYield y)
    {
        SearchProblem p = y.Problem;
        SearchMember[] members = [.. y.Members.Select((m, i) => MemberOf(p, m, i + 1, i < y.OnFront))];
        SearchMember NumberOf(VerifiedMember m) => members[y.Members.ToList().IndexOf(m)];
        SearchMember[] front = [.. members.Take(y.OnFront)];
        double? volume = y.Volume.Of([.. y.Members.Take(y.OnFront).Select(m => Costs(p, m.Candidate.Aims))]);
        return new()
        {
            Title = p.Title,
            DesignTitle = p.Design.Document.Title,
            DesignSha256 = p.Design.Sha256,
            StudySha256 = p.Sha256,
            Method = SearchWords.Of(p.File.Method.Kind),
            Aims =
            [
                .. p.Aims.Select(a => new SearchedAim(
                    a.Metric.Name,
                    a.Metric.Quantity.Text,
                    a.Metric.Quantity.Unit,
                    a.IsMaximised ? "maximise" : "minimise"
                )),
            ],
            Limits = [.. p.Limits.Select(l => new SearchedLimit(l.Metric.Name, l.Metric.Quantity.Unit, l.Text))],
            Variables = SearchInfluences.Of(y),
            Front = front,
            Best = y.Best is { } best ? NumberOf(best) : null,
            BestReason = y.Best is null ? WhyNone(y) : null,
            Concepts = [.. y.Concepts.Select(NumberOf)],
            Evaluations = y.Ledger.Findings.Count,
            FeasibleEvaluations = y.Ledger.Findings.Count(f => f.Status == SearchStatus.Feasible),
            EndReason = y.EndReason,
            WithoutAims =
            [
                .. y
                    .Ledger.Findings.Where(f => f.Status != SearchStatus.Feasible)
                    .GroupBy(f => f.Status)
                    .OrderBy(g => g.Key)
                    .Select(g => new SearchCountOf(SearchWords.Of(g.Key), g.Count())),
            ],
            Polish = y.Polish,
            PolishReason = y.Polish is null ? "The method does not polish, or there was nothing to polish." : null,
            Verification = y.Verification,
            HypervolumeValue = volume,
            HypervolumeReason = volume is null ? "One aim, more than four, or nothing found." : null,
            HypervolumeReferenceValues = y.Volume.Reference is { } r ? Costs(p, r) : [],
            History = History(y),
            Archive = y.Ledger.Archive,
            ArchiveReason = y.Ledger.Archive is null ? "Nothing is kept." : null,
            WasStopped = y.WasStopped,
        };
    }

    // Costs and values differ in sign alone, so this turns either into the other.
    private static double[] Costs(SearchProblem p, double[] values) => [.. values.Select((v, k) => p.Aims[k].Cost(v))];

    private static string WhyNone(SearchYield y) =>
        y.Verification.MemberCount > 0 ? "No member of the front held when it was verified."
        : y.WasStopped ? "It was stopped before anything was verified."
        : "No design kept all limits.";

    private static SearchMember MemberOf(SearchProblem p, VerifiedMember m, int number, bool onFront) =>
        new()
        {
            Number = number,
            Kind = p.KindText(m.Candidate.Genes),
            IsOnFront = onFront,
            Aims =
            [
                .. p.Aims.Select((a, k) => new SearchValue(a.Metric.Name, m.Candidate.Aims[k], a.Metric.Quantity.Unit)),
            ],
            Limits =
            [
                .. p.Limits.Select((l, k) => new SearchValue(l.Metric.Name, m.Limits[k], l.Metric.Quantity.Unit)),
            ],
            Variables =
            [
                .. p
                    .Variables.Select((v, i) => (v, Gene: m.Candidate.Genes[i]))
                    .Where(x => !x.v.IsChoice && x.v.IsActive(m.Candidate.Genes))
                    .Select(x => new SearchValue(x.v.Name, x.v.Value(x.Gene), x.v.Unit)),
            ],
            Ride = m.Ride,
            Engine = m.Engine,
            Sha256 = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(m.Toml))),
            Design = m.Toml,
        };

    private static SearchInstant[] History(SearchYield y)
    {
        int step = Math.Max(1, (y.Volume.History.Count + MostInstants - 1) / MostInstants);
        return
        [
            .. y
                .Volume.History.Where((_, i) => i % step == 0 || i == y.Volume.History.Count - 1)
                .Select(h => new SearchInstant(h.Evaluations, h.Front, h.Volume)),
        ];
    }
}
