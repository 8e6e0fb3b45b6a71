using Lightkeel.Studies.Archive;
using Lightkeel.Studies.Catalogue;

namespace Lightkeel.Studies.Map;

/// <summary>A step of what follows the cells: numbered items of a few numbers each.</summary>
/// <param name="stage">What the items are called.</param>
/// <param name="items">How many.</param>
/// <param name="work">Computes one.</param>
/// <param name="headers">Its numbers.</param>
internal sealed class MapStep(string stage, int items, NumberWork work, params IReadOnlyList<string> headers)
{
    public string Stage => stage;

    public int Items => items;

    public NumberWork Work => work;

    public IReadOnlyList<string> Headers => headers;

    /// <summary>The numbers of the items, once the step is computed.</summary>
    public IReadOnlyList<double[]> Found { get; set; } = [];
}

/// <summary>
/// Computes the steps of several traces side by side: what all of them ask for at once is one campaign, so that a map with many
/// slices has no more campaigns than one with a single slice.
/// </summary>
/// <param name="input">The input.</param>
/// <param name="context">The run.</param>
internal sealed class MapSteps(MapInput input, StudyContext context)
{
    /// <summary>Computes all steps of all traces.</summary>
    /// <param name="traces">Each asks for its steps one after another.</param>
    /// <exception cref="OperationCanceledException">The run was asked to stop.</exception>
    public void Complete(IReadOnlyList<IEnumerable<MapStep>> traces)
    {
        List<IEnumerator<MapStep>> open = [.. traces.Select(t => t.GetEnumerator())];
        while (true)
        {
            open.RemoveAll(trace => !trace.MoveNext());
            if (open.Count == 0)
            {
                return;
            }
            foreach (IGrouping<string, MapStep> together in open.Select(t => t.Current).GroupBy(s => s.Stage))
            {
                Complete(together.Key, [.. together]);
            }
        }
    }

    private void Complete(string stage, MapStep[] steps)
    {
        int[] ends = new int[steps.Length];
        int items = 0;
        foreach ((int i, MapStep step) in steps.Index())
        {
            ends[i] = items += step.Items;
        }
        if (items == 0)
        {
            return;
        }
        CampaignPlan plan = MapCampaign.Step(input, context, stage, items, steps[0].Headers);
        CampaignResults results = context.Complete(
            NumberItems.Of(
                plan,
                (item, numbers) =>
                {
                    int which = Array.FindIndex(ends, end => item < end);
                    steps[which].Work(item - (ends[which] - steps[which].Items), numbers);
                }
            )
        );
        if (!results.IsComplete)
        {
            throw new OperationCanceledException(context.Cancellation);
        }
        IReadOnlyList<double[]> found = NumberItems.Read(results);
        foreach ((int i, MapStep step) in steps.Index())
        {
            step.Found = [.. found.Skip(ends[i] - step.Items).Take(step.Items)];
        }
    }
}
