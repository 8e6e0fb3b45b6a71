using System.Text;
using CsCheck;
using Lightkeel.Studies.Designs;
using Lightkeel.Studies.Designs.Documents;
using Xunit;

namespace Lightkeel.Studies.Tests.Designs;

/// <summary>Whatever a file holds, reading it ends, with a design or with faults that have a place and a sentence.</summary>
public sealed class FuzzTests
{
    private static readonly string[] Texts = [.. DesignTemplates.All.Select(t => t.Text), DesignSamples.Small];

    private static readonly string[] Nasty =
    [
        "[",
        "]",
        "[[",
        "]]",
        "{",
        "}",
        "\"",
        "'",
        "\"\"\"",
        "'''",
        "=",
        ".",
        ",",
        "#",
        "\n",
        "\r",
        "\0",
        "\\",
        "\\u0000",
        "\\uD800",
        "1e999",
        "1e-999",
        "99999999999999999999",
        "-0",
        "nan",
        "inf",
        "0x7fffffffffffffff",
        "1979-05-27T07:32:00Z",
        "true",
        "[[sail]]\n",
        "[sail]\n",
        "[beam]\n",
        "[surface.foil]\n",
        "[[beam.part]]\n",
        "[beam.director.x]\n",
        "a.b.c.d.e.f = 1\n",
        "file = \"/dev/zero\"\n",
        "file = \"../x\"\n",
        "radius = \"1e308 Qm\"\n",
        "name = \"\"\n",
        "\"\" = 1\n",
        "\uFEFF",
        "\u00b5",
    ];

    private static readonly Gen<string> Text = Gen.Int[0, Texts.Length - 1].Select(i => Texts[i]);

    [Fact]
    public void Design_WithBytesChanged_IsADesignOrFaults() =>
        Gen.Select(Text, Gen.Select(Gen.Int[0, 4000], Gen.Byte).Array[1, 8])
            .Sample(
                (text, changes) =>
                {
                    byte[] bytes = Encoding.UTF8.GetBytes(text);
                    foreach ((int at, byte value) in changes)
                    {
                        bytes[at % bytes.Length] = value;
                    }
                    Check(Encoding.UTF8.GetString(bytes));
                },
                iter: 1000
            );

    [Fact]
    public void Design_WithLinesDeletedDoubledOrMoved_IsADesignOrFaults() =>
        Gen.Select(Text, Gen.Select(Gen.Int[0, 2], Gen.Int[0, 100], Gen.Int[0, 100]).Array[1, 6])
            .Sample(
                (text, changes) =>
                {
                    List<string> lines = [.. text.Split('\n')];
                    foreach ((int kind, int from, int to) in changes)
                    {
                        string line = lines[from % lines.Count];
                        if (kind != 1 && lines.Count > 1)
                        {
                            lines.RemoveAt(from % lines.Count);
                        }
                        if (kind != 0)
                        {
                            lines.Insert(to % lines.Count, line);
                        }
                    }
                    Check(string.Join('\n', lines));
                },
                iter: 800
            );

    [Fact]
    public void Design_WithNastyPieces_IsADesignOrFaults() =>
        Gen.Select(Text, Gen.Select(Gen.Int[0, 4000], Gen.Int[0, Nasty.Length - 1]).Array[1, 5])
            .Sample(
                (text, pieces) =>
                {
                    StringBuilder spoilt = new(text);
                    foreach ((int at, int piece) in pieces)
                    {
                        spoilt.Insert(at % spoilt.Length, Nasty[piece]);
                    }
                    Check(spoilt.ToString());
                },
                iter: 1000
            );

    [Theory]
    [InlineData("a = ", "[", 100_000)]
    [InlineData("a = ", "{a=", 100_000)]
    [InlineData("", "a.", 100_000)]
    [InlineData("[", "a.", 100_000)]
    [InlineData("[[", "a.", 100_000)]
    [InlineData("", "[[sail]]\n", 50_000)]
    [InlineData("", "[a]\n[[b]]\n", 50_000)]
    [InlineData("a = \"", "\\\"", 100_000)]
    [InlineData("title = \"", "9", 900_000)]
    [InlineData("a = ", "9", 900_000)]
    [InlineData("a = [", "1,", 400_000)]
    [InlineData("", "# x\n", 200_000)]
    [InlineData("", "\n", 900_000)]
    [InlineData("[beam]\npower = \"1 ", "(", 100_000)]
    [InlineData("[beam]\npower = \"1 ", "m ", 90)]
    [InlineData("[beam]\n", "x = 1\n", 100_000)]
    public void Design_OfOnePieceOverAndOver_IsRefusedWithoutHanging(string start, string piece, int times) =>
        Check(start + new StringBuilder().Insert(0, piece, times));

    [Fact]
    public void Path_OfAnyText_GivesADocumentOrAFault()
    {
        DesignDocument tern = DesignDocument.Parse(Texts[0]);
        string[] parts =
        [
            "beam",
            "power",
            "sail",
            "canopy",
            "0",
            "1",
            "at",
            "x",
            "z",
            "radius",
            "surface",
            "foil",
            "specular",
            "",
            "part",
            "noise",
            "craft",
            "inertia",
            "xx",
            "profile",
        ];
        Gen.Select(
                Gen.Int[0, parts.Length - 1].Array[1, 5],
                Gen.OneOf(Gen.String, Gen.Int[0, Nasty.Length - 1].Select(i => Nasty[i]))
            )
            .Sample(
                (path, value) =>
                {
                    try
                    {
                        DesignReading reading = tern.WithValue(string.Join('.', path.Select(i => parts[i])), value)
                            .Read();
                        Assert.Equal(reading.Design is null, reading.Faults.Count > 0);
                    }
                    catch (DesignFaultException e)
                    {
                        Assert.NotEmpty(e.Faults);
                    }
                },
                iter: 2000
            );
    }

    private static void Check(string text)
    {
        DesignDocument document = DesignDocument.Parse(text, "fuzz.toml");
        DesignReading reading = document.Read();
        Assert.Equal(reading.Design is null, reading.Faults.Count > 0);
        Assert.All(
            reading.Faults,
            f =>
            {
                Assert.True(f.Position.Line >= 1 && f.Position.Column >= 1);
                Assert.False(string.IsNullOrWhiteSpace(f.What) || string.IsNullOrWhiteSpace(f.Accepted));
                Assert.True(f.What.Length < 2000);
            }
        );
        _ = document.Numbers;
        _ = document.ToJson();
    }
}
