using System.Text;
using Lightkeel.Studies.Figures;
using Lightkeel.Studies.Figures.Rendering;

namespace Lightkeel.Studies.Output;

/// <summary>A folder that takes the files of results: JSON, figures, tables, each written whole or not at all.</summary>
public sealed class ResultFolder
{
    private ResultFolder(string path) => Path = path;

    /// <summary>The folder.</summary>
    public string Path { get; }

    /// <summary>Makes the folder if it does not exist and makes sure that files can be written there.</summary>
    /// <param name="path">The folder.</param>
    /// <exception cref="IOException">It cannot be made or written, or is a file.</exception>
    /// <exception cref="UnauthorizedAccessException">Writing there is not allowed.</exception>
    public static ResultFolder Open(string path)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        string full = System.IO.Path.GetFullPath(path);
        Directory.CreateDirectory(full);
        string trial = System.IO.Path.Combine(full, $".lightkeel-{Guid.NewGuid():N}.tmp");
        File.WriteAllBytes(trial, []);
        File.Delete(trial);
        return new(full);
    }

    /// <summary>Writes the files of one result; a file of the same name is replaced.</summary>
    /// <param name="envelope">The result: <c>COMMAND.json</c>.</param>
    /// <param name="figures">Figures: <c>COMMAND-NAME.svg</c> and <c>.png</c>.</param>
    /// <param name="tables">Tables: <c>COMMAND-NAME.csv</c>, and <c>.parquet</c> for many rows.</param>
    /// <param name="alwaysParquet">True to write every table as Parquet too.</param>
    /// <returns>Names of the files written, in the order written: the document first, so that it is safe whatever follows.</returns>
    /// <exception cref="IOException">A file could not be written; those before it are complete.</exception>
    /// <exception cref="UnauthorizedAccessException">Writing is not allowed.</exception>
    public IReadOnlyList<string> Write(
        ResultEnvelope envelope,
        IReadOnlyList<Figure> figures,
        IReadOnlyList<ResultTable> tables,
        bool alwaysParquet
    )
    {
        ArgumentNullException.ThrowIfNull(envelope);
        ArgumentNullException.ThrowIfNull(figures);
        ArgumentNullException.ThrowIfNull(tables);
        string command = ResultName.Require(envelope.Command!);
        List<string> written = [];
        Put(written, command + ".json", stream => stream.Write(envelope.ToJson()));
        foreach (ResultTable table in tables)
        {
            string name = $"{command}-{table.Name}";
            Put(written, name + ".csv", stream => CsvTable.Write(table, stream));
            if (alwaysParquet || table.RowCount > ResultTable.ManyRows)
            {
                Put(written, name + ".parquet", stream => ParquetTable.Write(table, stream));
            }
        }
        foreach (Figure figure in figures)
        {
            string name = $"{command}-{figure.Name}";
            Put(written, name + ".svg", stream => stream.Write(Encoding.UTF8.GetBytes(FigureRenderer.ToSvg(figure))));
            Put(written, name + ".png", stream => stream.Write(FigureRenderer.ToPng(figure)));
        }
        return written;
    }

    /// <summary>Writes further files of a result; a file of the same name is replaced.</summary>
    /// <param name="files">The files.</param>
    /// <returns>Names of the files written.</returns>
    /// <exception cref="IOException">A file could not be written; those before it are complete.</exception>
    /// <exception cref="UnauthorizedAccessException">Writing is not allowed.</exception>
    public IReadOnlyList<string> Write(IReadOnlyList<ResultFile> files)
    {
        ArgumentNullException.ThrowIfNull(files);
        List<string> written = [];
        foreach (ResultFile file in files)
        {
            Put(written, file.Name, stream => stream.Write(Encoding.UTF8.GetBytes(file.Text)));
        }
        return written;
    }

    private void Put(List<string> written, string name, Action<Stream> write)
    {
        AtomicFile.Write(System.IO.Path.Combine(Path, name), write);
        written.Add(name);
    }
}
