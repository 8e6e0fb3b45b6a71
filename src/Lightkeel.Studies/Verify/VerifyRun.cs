using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Verify;

/// <summary>Runs checks side by side; what they give does not depend on the number of threads.</summary>
internal static class VerifyRun
{
    public static VerifyResult Of(IReadOnlyList<CheckModule> modules, StudyContext context)
    {
        (CheckModule Module, OutsideCheck Check)[] all = [.. modules.SelectMany(m => m.Checks.Select(c => (m, c)))];
        VerifiedCheck?[] found = new VerifiedCheck?[all.Length];
        int done = 0;
        context.Progress.Report("checks", 0, all.Length);
        Parallel.For(
            0,
            all.Length,
            new ParallelOptions { MaxDegreeOfParallelism = context.Threads },
            (i, loop) =>
            {
                if (context.Cancellation.IsCancellationRequested)
                {
                    loop.Stop();
                    return;
                }
                found[i] = CheckComparison.Of(all[i].Module, all[i].Check);
                context.Progress.Report("checks", Interlocked.Increment(ref done), all.Length);
            }
        );
        return Counted(modules, [.. found.OfType<VerifiedCheck>()], all.Length);
    }

    private static VerifyResult Counted(IReadOnlyList<CheckModule> modules, VerifiedCheck[] checks, int asked)
    {
        int passed = checks.Count(c => c.Pass);
        return new()
        {
            Checks = checks,
            Modules =
            [
                .. modules.Select(m =>
                {
                    VerifiedCheck[] own = [.. checks.Where(c => c.Module == m.Name)];
                    return new VerifiedModule(m.Name, m.Title, own.Length, own.Count(c => c.Pass));
                }),
            ],
            Origins =
            [
                .. checks
                    .GroupBy(c => c.Origin)
                    .OrderByDescending(g => g.Count())
                    .ThenBy(g => g.Key, StringComparer.Ordinal)
                    .Select(g => new VerifiedOrigin(g.Key, g.Count())),
            ],
            Run = checks.Length,
            Passed = passed,
            Failed = checks.Length - passed,
            NotRun = asked - checks.Length,
            AllPass = passed == asked,
        };
    }
}
