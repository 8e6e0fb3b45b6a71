namespace Lightkeel.Studies.Verify;

/// <summary>Runs one check and compares what the library gives with what is expected.</summary>
internal static class CheckComparison
{
    public static VerifiedCheck Of(CheckModule module, OutsideCheck check)
    {
        try
        {
            return Compared(module, check, check.Compute());
        }
        // Whatever a check throws is its failure: the other checks are still told.
        catch (Exception e) when (e is not (OperationCanceledException or OutOfMemoryException))
        {
            return WithoutValue(module, check, $"{e.GetType().Name}: {e.Message.ReplaceLineEndings(" ")}");
        }
    }

    private static VerifiedCheck Compared(CheckModule module, OutsideCheck check, IReadOnlyList<double> computed)
    {
        if (computed.Count != check.Expected.Count)
        {
            return WithoutValue(
                module,
                check,
                FormattableString.Invariant($"{check.Expected.Count} values are expected and {computed.Count} came.")
            );
        }
        VerifiedValue[] values =
        [
            .. computed.Select(
                (value, i) =>
                    new VerifiedValue(
                        check.PartName(i),
                        check.Expected[i],
                        value,
                        Math.Abs(value - check.Expected[i]) / check.SizeOf(i)
                    )
            ),
        ];
        if (Array.Find(values, v => !double.IsFinite(v.RelativeError)) is { } strange)
        {
            return WithoutValue(module, check, $"The library gave a number that is not finite for {strange.Part}.");
        }
        VerifiedValue worst = values.MaxBy(v => v.RelativeError)!;
        return Row(module, check) with
        {
            Expected = worst.Expected,
            Computed = worst.Computed,
            RelativeError = worst.RelativeError,
            Part = worst.Part.Length > 0 ? worst.Part : null,
            Pass = worst.RelativeError <= check.Tolerance,
            Values = values.Length > 1 ? values : null,
        };
    }

    private static VerifiedCheck WithoutValue(CheckModule module, OutsideCheck check, string reason) =>
        Row(module, check) with
        {
            ComputedReason = reason,
            RelativeErrorReason = "Nothing was computed.",
        };

    private static VerifiedCheck Row(CheckModule module, OutsideCheck check) =>
        new()
        {
            Id = check.Id,
            Module = module.Name,
            Quantity = check.Quantity,
            Inputs = check.Inputs,
            Source = check.Source,
            Origin = check.Origin.Word,
            OriginDetail = check.Origin.Detail,
            Unit = check.Unit,
            Expected = check.Expected[0],
            Size = check.Size,
            SizeReason = check.Size is null ? "Errors are measured by the expected value itself." : null,
            Tolerance = check.Tolerance,
            Pass = false,
        };
}
