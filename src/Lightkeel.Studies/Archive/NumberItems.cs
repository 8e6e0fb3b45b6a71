namespace Lightkeel.Studies.Archive;

/// <summary>Computes one item that is a few numbers; not a number where one does not exist.</summary>
/// <param name="item">Its number.</param>
/// <param name="numbers">Where they are written, in the order of the columns; zero before.</param>
public delegate void NumberWork(long item, Span<double> numbers);

/// <summary>Campaigns whose items are a few numbers each.</summary>
public static class NumberItems
{
    private const int MostOnStack = 64;

    /// <summary>The layout of such items.</summary>
    /// <param name="headers">Names with units.</param>
    public static RowLayout Layout(params IReadOnlyList<string> headers) => new([.. headers.Select(RowColumn.Number)]);

    /// <summary>The campaign.</summary>
    /// <param name="plan">What is asked; its columns are numbers.</param>
    /// <param name="work">Computes one item.</param>
    public static Campaign Of(CampaignPlan plan, NumberWork work)
    {
        ArgumentNullException.ThrowIfNull(plan);
        RowLayout layout = plan.Question.Layout;
        int width = layout.Columns.Count;
        return new(
            plan,
            (item, row) =>
            {
                Span<double> numbers = width <= MostOnStack ? stackalloc double[width] : new double[width];
                numbers.Clear();
                work(item, numbers);
                for (int i = 0; i < width; i++)
                {
                    layout.Put(row, i, numbers[i]);
                }
            }
        );
    }

    /// <summary>The numbers of every item, in order.</summary>
    /// <param name="results">A campaign of such items.</param>
    public static IReadOnlyList<double[]> Read(CampaignResults results)
    {
        ArgumentNullException.ThrowIfNull(results);
        RowLayout layout = results.Plan.Question.Layout;
        int width = layout.Columns.Count;
        return
        [
            .. results.Items(
                (_, row) =>
                {
                    double[] numbers = new double[width];
                    for (int i = 0; i < width; i++)
                    {
                        numbers[i] = layout.Number(row, i);
                    }
                    return numbers;
                }
            ),
        ];
    }
}
