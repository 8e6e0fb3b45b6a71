using Lightkeel.Numerics.Interpolation;
using Xunit;

namespace Lightkeel.Numerics.Tests.Interpolation;

public sealed class RefinedLatticeTests
{
    private static (RefinedLattice Lattice, int Asked) Disc(int points, int levels, double radius)
    {
        RefinedLattice lattice = new(points, points, levels);
        int asked = 0;
        bool whole = lattice.Fill(
            (_, batch) =>
            {
                asked += batch.Count;
                return [.. batch.Select(p => (bool?)Inside(lattice, p, radius))];
            }
        );
        Assert.True(whole);
        return (lattice, asked);
    }

    private static bool Inside(RefinedLattice lattice, LatticePoint p, double radius) =>
        double.Hypot(2.0 * p.Column / (lattice.Columns - 1) - 1, 2.0 * p.Row / (lattice.Rows - 1) - 1) < radius;

    [Theory]
    [InlineData(9, 0)]
    [InlineData(9, 4)]
    public void Disc_Refined_IsTheDiscAtEveryPointOfTheFinestLattice(int points, int levels)
    {
        (RefinedLattice lattice, int asked) = Disc(points, levels, 0.7);
        bool[][] answers = lattice.Answers();
        for (int row = 0; row < lattice.Rows; row++)
        {
            for (int column = 0; column < lattice.Columns; column++)
            {
                Assert.Equal(Inside(lattice, new(column, row), 0.7), answers[row][column]);
            }
        }
        // Points along a line, not over an area.
        Assert.InRange(asked, 1, levels == 0 ? 81 : lattice.Columns * lattice.Rows / 5);
    }

    [Fact]
    public void NarrowFinger_ThatMeetsOneEdgeOfTheCoarseLattice_IsFollowed()
    {
        // A strip half a coarse cell wide and slanted: coarse points alone see pieces of it.
        RefinedLattice lattice = new(9, 9, 4);
        bool Strip(LatticePoint p) => Math.Abs(p.Row - 0.6 * p.Column - 10) < 6;
        lattice.Fill((_, batch) => [.. batch.Select(p => (bool?)Strip(p))]);
        bool[][] answers = lattice.Answers();
        int wrong = 0;
        for (int row = 0; row < lattice.Rows; row++)
        {
            wrong += Enumerable
                .Range(0, lattice.Columns)
                .Count(column => answers[row][column] != Strip(new(column, row)));
        }
        Assert.Equal(0, wrong);
    }

    [Fact]
    public void Stop_InALevel_KeepsTheLevelBefore()
    {
        RefinedLattice lattice = new(5, 5, 3);
        bool done = lattice.Fill((level, batch) => [.. batch.Select(p => level < 2 ? (bool?)(p.Column < 13) : null)]);
        Assert.False(done);
        Assert.Equal(1, lattice.FinishedLevels);
        bool[][] answers = lattice.Answers();
        Assert.Equal(9, answers.Length);
        Assert.All(answers, row => Assert.Equal([true, true, true, true, false, false, false, false, false], row));
    }

    [Fact]
    public void LargestShapesInADisc_AreTheSquareAndTheDiscItself_LessTheMargin()
    {
        // The largest box in a circle of radius r is the square of half-width r/√2, the largest ellipse the circle: elementary.
        (RefinedLattice lattice, _) = Disc(33, 3, 0.8);
        double half = 0.5 * (lattice.Columns - 1);
        InscribedShapes shapes = new(lattice.Answers(), half, half);
        InscribedShape box = shapes.Box()!.Value;
        InscribedShape ellipse = shapes.Ellipse()!.Value;
        double radius = 0.8 * half;
        Assert.InRange(Math.Sqrt(box.HalfWidth * box.HalfHeight), radius / Math.Sqrt(2) - 4, radius / Math.Sqrt(2) - 1);
        Assert.InRange(double.Hypot(box.HalfWidth, box.HalfHeight), 0, radius);
        Assert.InRange(Math.Sqrt(ellipse.HalfWidth * ellipse.HalfHeight), radius - 4, radius);
        Assert.False(box.MeetsEdge || ellipse.MeetsEdge);
    }

    [Fact]
    public void CentreOutside_HasNoShape()
    {
        (RefinedLattice lattice, _) = Disc(9, 2, 0.5);
        InscribedShapes shapes = new(lattice.Answers(), 1, 1);
        Assert.Null(shapes.Box());
        Assert.Null(shapes.Ellipse());
    }

    [Fact]
    public void AllHeld_MeetsTheEdge()
    {
        (RefinedLattice lattice, _) = Disc(5, 0, 9);
        InscribedShape box = new InscribedShapes(lattice.Answers(), 1.5, 2).Box()!.Value;
        Assert.Equal(new InscribedShape(1.5, 2, true), box);
    }
}
