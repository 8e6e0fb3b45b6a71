using System.Globalization;
using System.Text;

namespace Lightkeel.Studies.Verify;

/// <summary>The page of the documentation that lists the checks, in Markdown, from the list itself.</summary>
public static class VerificationPage
{
    private const string Opening = """
        # Values from outside

        Every number below comes from outside this project: it was read in a publication or public file, computed with a
        general-purpose library or from a published formula to many digits, or is from memory, and says which. `lightkeel verify`
        runs all of them on the installed program and ends with exit code 4 when one fails; the tests run the same list. This
        page is written from that list (`VerificationPage`) and a test keeps it true; do not edit it by hand.

        An error is relative to the expected value, or to the stated size where there is one; where a check has several values
        the largest error counts. The computed expectations can be had again with `benchmarks/peers/oracles/verification_audit.py`,
        which shares no code with the library and compares them with `lightkeel verify --json`.

        What passing does not say: nothing about a design, its assumptions or its inputs, and nothing about calculations that are
        not listed.

        """;

    /// <summary>Writes the page.</summary>
    /// <param name="modules">The checks.</param>
    public static string Of(IReadOnlyList<CheckModule> modules)
    {
        ArgumentNullException.ThrowIfNull(modules);
        StringBuilder page = new(Opening.ReplaceLineEndings("\n") + "\n");
        Count(page, modules);
        foreach (CheckModule module in modules)
        {
            Module(page, module);
        }
        return page.ToString();
    }

    private static void Count(StringBuilder page, IReadOnlyList<CheckModule> modules)
    {
        ValueOrigin[] kinds = Enum.GetValues<ValueOrigin>();
        page.Append("## Count\n\n| module | checks | values | read | computed | memory | common practice |\n");
        page.Append("| --- | ---: | ---: | ---: | ---: | ---: | ---: |\n");
        foreach (CheckModule module in modules)
        {
            Row($"[{module.Title}](#{Anchor(module)})", module.Checks);
        }
        Row("**all**", [.. modules.SelectMany(m => m.Checks)]);
        page.Append('\n');

        void Row(string name, IReadOnlyList<OutsideCheck> checks)
        {
            IEnumerable<int> numbers =
            [
                checks.Count,
                checks.Sum(c => c.Expected.Count),
                .. kinds.Select(kind => checks.Count(c => c.Origin.Kind == kind)),
            ];
            string cells = string.Join(" | ", numbers.Select(n => n.ToString(CultureInfo.InvariantCulture)));
            page.Append(CultureInfo.InvariantCulture, $"| {name} | {cells} |\n");
        }
    }

    private static void Module(StringBuilder page, CheckModule module)
    {
        page.Append(
            CultureInfo.InvariantCulture,
            $"## {module.Title}\n\n`lightkeel verify --module {module.Name}`\n\n"
        );
        page.Append(
            "| id | quantity | expected | allowed | source | known by |\n| --- | --- | --- | --- | --- | --- |\n"
        );
        foreach (OutsideCheck check in module.Checks)
        {
            string quantity = check.Inputs.Length > 0 ? $"{check.Quantity}; {check.Inputs}" : check.Quantity;
            string known =
                check.Origin.Detail.Length > 0 ? $"{check.Origin.Word}: {check.Origin.Detail}" : check.Origin.Word;
            page.Append(
                CultureInfo.InvariantCulture,
                $"| {check.Id} | {Safe(quantity)} | {Expected(check)} | {Allowed(check)} | {Safe(check.Source)} | {Safe(known)} |\n"
            );
        }
        page.Append('\n');
    }

    private static string Expected(OutsideCheck check)
    {
        string unit = check.Unit.Length > 0 ? " " + check.Unit : "";
        IEnumerable<string> values = check.Expected.Select(
            (value, i) => check.Parts.Count > 0 ? $"{Safe(check.PartName(i))}: {Number(value)}" : Number(value)
        );
        return string.Join("; ", values) + unit;
    }

    private static string Allowed(OutsideCheck check) =>
        check.Tolerance == 0 ? "none"
        : check.Size is { } size ? $"{Number(check.Tolerance)} of {Number(size)}"
        : Number(check.Tolerance);

    private static string Number(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    private static string Safe(string text) => text.Replace("|", "\\|", StringComparison.Ordinal);

    private static string Anchor(CheckModule module) =>
        string.Concat(
            module
                .Title.ToLowerInvariant()
                .Where(c => char.IsLetterOrDigit(c) || c is ' ' or '-')
                .Select(c => c == ' ' ? '-' : c)
        );
}
