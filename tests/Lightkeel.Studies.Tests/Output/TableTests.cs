using System.Text;
using Lightkeel.Studies.Output;
using Parquet;
using Parquet.Schema;
using Xunit;

namespace Lightkeel.Studies.Tests.Output;

public sealed class TableTests
{
    private static ResultTable Sample =>
        new(
            "states",
            "States",
            [
                TableColumn.Numbers("x_m", [0.1, -1e-300, 123456789.125]),
                TableColumn.Numbers("force_N", (IReadOnlyList<double?>)[1.5, null, -0.0]),
                TableColumn.Integers("ride", [1, 2, long.MaxValue]),
                TableColumn.Texts("outcome", ["held", null, "lost, \"badly\"\nand far"]),
                TableColumn.Flags("kept", [true, false, true]),
            ]
        );

    /// <summary>RFC 4180, sections 2.5 to 2.7: fields with commas, quotes or line breaks are quoted, quotes doubled.</summary>
    [Fact]
    public void Csv_QuotesAsTheStandardSays_AndLeavesWhatIsAbsentEmpty()
    {
        using MemoryStream stream = new();
        CsvTable.Write(Sample, stream);
        string expected =
            "x_m,force_N,ride,outcome,kept\n"
            + "0.1,1.5,1,held,true\n"
            + "-1E-300,,2,,false\n"
            + "123456789.125,-0,9223372036854775807,\"lost, \"\"badly\"\"\nand far\",true\n";
        Assert.Equal(expected, Encoding.UTF8.GetString(stream.ToArray()));
    }

    /// <summary>Apache Parquet file format: a file begins and ends with the four bytes PAR1.</summary>
    [Fact]
    public async Task Parquet_KeepsValuesNullsAndNames()
    {
        using MemoryStream stream = new();
        ParquetTable.Write(Sample, stream);
        byte[] bytes = stream.ToArray();
        Assert.Equal("PAR1"u8.ToArray(), bytes[..4]);
        Assert.Equal("PAR1"u8.ToArray(), bytes[^4..]);
        stream.Position = 0;
        await using ParquetReader reader = await ParquetReader.CreateAsync(
            stream,
            cancellationToken: TestContext.Current.CancellationToken
        );
        Assert.Equal(
            ["x_m", "force_N", "ride", "outcome", "kept"],
            reader.Schema.DataFields.Select(field => field.Name)
        );
        using ParquetRowGroupReader group = reader.OpenRowGroupReader(0);
        DataField[] fields = reader.Schema.DataFields;
        double[] x = new double[3];
        double?[] force = new double?[3];
        long[] ride = new long[3];
        await group.ReadAsync<double>(fields[0], x, cancellationToken: TestContext.Current.CancellationToken);
        await group.ReadAsync<double>(fields[1], force, cancellationToken: TestContext.Current.CancellationToken);
        await group.ReadAsync<long>(fields[2], ride, cancellationToken: TestContext.Current.CancellationToken);
        Assert.Equal([0.1, -1e-300, 123456789.125], x);
        Assert.Equal([1.5, null, 0.0], force);
        Assert.Equal([1, 2, long.MaxValue], ride);
        Assert.Equal("States", reader.CustomMetadata["title"]);
    }

    [Fact]
    public void Column_WithANumberThatIsNotFinite_IsRefused()
    {
        Assert.Throws<NonFiniteResultException>(() => TableColumn.Numbers("x_m", [1, double.NaN]));
        Assert.Throws<NonFiniteResultException>(() =>
            TableColumn.Numbers("x_m", (IReadOnlyList<double?>)[null, double.NegativeInfinity])
        );
    }

    [Fact]
    public void Table_WithUnevenOrEqualColumns_OrABadName_IsRefused()
    {
        TableColumn two = TableColumn.Numbers("x_m", [1, 2]);
        Assert.Throws<ArgumentException>(() => new ResultTable("t", "T", [two, TableColumn.Numbers("y_m", [1])]));
        Assert.Throws<ArgumentException>(() => new ResultTable("t", "T", [two, two]));
        Assert.Throws<ArgumentException>(() => new ResultTable("../t", "T", [two]));
    }
}
