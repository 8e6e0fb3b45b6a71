namespace Lightkeel.Numerics.Interpolation;

/// <summary>A point of a lattice.</summary>
/// <param name="Column">Its column.</param>
/// <param name="Row">Its row.</param>
public readonly record struct LatticePoint(int Column, int Row);

/// <summary>
/// A yes-or-no function of two variables on a lattice that is filled coarsely first and then only where its answer changes:
/// cells whose border shows both answers are split in four, level by level.
/// </summary>
/// <remarks>
/// A cell is split as soon as any known point of its border differs from its corner, so a line of change that runs into a
/// neighbour is followed there. What lies inside a cell whose border shows one answer alone is taken to be the same: a pocket
/// that touches no border is not seen. The points asked for depend on the answers alone. Not safe for several threads at once;
/// the function may answer a batch on as many as it likes.
/// </remarks>
public sealed class RefinedLattice
{
    private readonly bool?[] _known;
    private readonly int _baseColumns;
    private readonly int _baseRows;
    private readonly int _levels;
    private List<Cell> _cells = [];

    /// <summary>An empty lattice.</summary>
    /// <param name="baseColumns">Points across of the coarse lattice, two or more.</param>
    /// <param name="baseRows">Points up, two or more.</param>
    /// <param name="levels">How often a cell may be split.</param>
    public RefinedLattice(int baseColumns, int baseRows, int levels)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(baseColumns, 2);
        ArgumentOutOfRangeException.ThrowIfLessThan(baseRows, 2);
        ArgumentOutOfRangeException.ThrowIfNegative(levels);
        (_baseColumns, _baseRows, _levels) = (baseColumns, baseRows, levels);
        Columns = ((baseColumns - 1) << levels) + 1;
        Rows = ((baseRows - 1) << levels) + 1;
        _known = new bool?[Columns * Rows];
    }

    private enum Border
    {
        Uniform,
        Mixed,
    }

    /// <summary>Points across of the finest lattice.</summary>
    public int Columns { get; }

    /// <summary>Points up.</summary>
    public int Rows { get; }

    /// <summary>Distance between points of the coarse lattice in points of the finest.</summary>
    public int BaseStep => 1 << _levels;

    /// <summary>True once the coarse lattice is filled.</summary>
    public bool HasBase { get; private set; }

    /// <summary>How many levels of splitting are finished.</summary>
    public int FinishedLevels { get; private set; }

    /// <summary>Distance between points of the finest finished level, in points of the finest lattice.</summary>
    public int Step => 1 << (_levels - FinishedLevels);

    /// <summary>Fills the lattice.</summary>
    /// <param name="ask">Answers a batch of points (level, points); null for one that was not answered, which stops the filling.</param>
    /// <returns>True when all levels are finished.</returns>
    public bool Fill(Func<int, IReadOnlyList<LatticePoint>, IReadOnlyList<bool?>> ask)
    {
        ArgumentNullException.ThrowIfNull(ask);
        List<LatticePoint> coarse = [];
        for (int row = 0; row < _baseRows; row++)
        {
            for (int column = 0; column < _baseColumns; column++)
            {
                coarse.Add(new(column * BaseStep, row * BaseStep));
            }
        }
        if (!Ask(ask, 0, coarse))
        {
            return false;
        }
        HasBase = true;
        _cells =
        [
            .. coarse
                .Where(p => p.Column + BaseStep < Columns && p.Row + BaseStep < Rows)
                .Select(p => new Cell(p.Column, p.Row, BaseStep)),
        ];
        for (int level = 1; level <= _levels; level++)
        {
            if (!Split(ask, level))
            {
                return false;
            }
            FinishedLevels = level;
        }
        return true;
    }

    /// <summary>The answers at the points of the finest finished level, a row per row; those not asked are those of their cell.</summary>
    public bool[][] Answers()
    {
        int step = Step;
        int columns = (Columns - 1) / step + 1;
        bool[][] answers = [.. Enumerable.Range(0, (Rows - 1) / step + 1).Select(_ => new bool[columns])];
        foreach (Cell cell in _cells.Where(c => c.Size >= step))
        {
            bool own = Known(cell.Column, cell.Row);
            for (int row = cell.Row; row <= cell.Row + cell.Size; row += step)
            {
                for (int column = cell.Column; column <= cell.Column + cell.Size; column += step)
                {
                    answers[row / step][column / step] = _known[row * Columns + column] ?? own;
                }
            }
        }
        // A level that was left unfinished has smaller cells: where the level above asked, its answers are known.
        for (int row = 0; row < answers.Length; row++)
        {
            for (int column = 0; column < columns; column++)
            {
                answers[row][column] = _known[row * step * Columns + column * step] ?? answers[row][column];
            }
        }
        return answers;
    }

    private bool Known(int column, int row) => _known[row * Columns + column]!.Value;

    private bool Split(Func<int, IReadOnlyList<LatticePoint>, IReadOnlyList<bool?>> ask, int level)
    {
        int smallest = 1 << (_levels - level);
        while (true)
        {
            ILookup<bool, Cell> sorted = _cells.ToLookup(c => c.Size > smallest && BorderOf(c) == Border.Mixed);
            if (!sorted[true].Any())
            {
                return true;
            }
            List<LatticePoint> wanted =
            [
                .. sorted[true]
                    .SelectMany(c => c.Middles())
                    .Where(p => _known[p.Row * Columns + p.Column] is null)
                    .Distinct(),
            ];
            if (!Ask(ask, level, wanted))
            {
                return false;
            }
            _cells = [.. sorted[false], .. sorted[true].SelectMany(c => c.Quarters())];
        }
    }

    private bool Ask(
        Func<int, IReadOnlyList<LatticePoint>, IReadOnlyList<bool?>> ask,
        int level,
        List<LatticePoint> points
    )
    {
        IReadOnlyList<bool?> answers = points.Count > 0 ? ask(level, points) : [];
        if (answers.Any(a => a is null))
        {
            return false;
        }
        for (int i = 0; i < points.Count; i++)
        {
            _known[points[i].Row * Columns + points[i].Column] = answers[i];
        }
        return true;
    }

    private Border BorderOf(Cell cell)
    {
        bool own = Known(cell.Column, cell.Row);
        for (int k = 0; k <= cell.Size; k++)
        {
            if (
                Differs(cell.Column + k, cell.Row, own)
                || Differs(cell.Column + k, cell.Row + cell.Size, own)
                || Differs(cell.Column, cell.Row + k, own)
                || Differs(cell.Column + cell.Size, cell.Row + k, own)
            )
            {
                return Border.Mixed;
            }
        }
        return Border.Uniform;
    }

    private bool Differs(int column, int row, bool own) => _known[row * Columns + column] is { } there && there != own;

    private readonly record struct Cell(int Column, int Row, int Size)
    {
        public LatticePoint[] Middles()
        {
            int half = Size / 2;
            return
            [
                new(Column + half, Row),
                new(Column, Row + half),
                new(Column + half, Row + half),
                new(Column + Size, Row + half),
                new(Column + half, Row + Size),
            ];
        }

        public Cell[] Quarters()
        {
            int half = Size / 2;
            return
            [
                new(Column, Row, half),
                new(Column + half, Row, half),
                new(Column, Row + half, half),
                new(Column + half, Row + half, half),
            ];
        }
    }
}
