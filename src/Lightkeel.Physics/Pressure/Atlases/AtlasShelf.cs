using Lightkeel.Physics.Beams;
using Lightkeel.Physics.Craft;

namespace Lightkeel.Physics.Pressure.Atlases;

/// <summary>Where the bytes of atlases are kept between processes.</summary>
public interface IAtlasStore
{
    /// <summary>The bytes kept under a name; null where there are none.</summary>
    byte[]? Read(string name);

    /// <summary>Keeps bytes under a name.</summary>
    void Write(string name, ReadOnlySpan<byte> bytes);

    /// <summary>Told when kept bytes were damaged or of another version; the atlas is then built again.</summary>
    void Discarded(string name);
}

/// <summary>
/// Atlases kept by their content: what was built once in a process is not built again. Holds the most recent; what it holds
/// never changes a result.
/// </summary>
public sealed class AtlasShelf
{
    /// <summary>How many atlases are kept.</summary>
    public const int Room = 24;

    private readonly Lock _gate = new();
    private readonly LinkedList<(string Key, Lazy<AtlasContent> Content)> _kept = [];

    /// <summary>The shelf of this process.</summary>
    public static AtlasShelf OfProcess { get; } = new();

    /// <summary>How many atlases it had to build.</summary>
    public int Built { get; private set; }

    /// <summary>An atlas, from the shelf, from a store, or built; see <see cref="PressureAtlas.Build"/>.</summary>
    /// <param name="craft">The craft.</param>
    /// <param name="beam">The beam.</param>
    /// <param name="box">Poses to cover.</param>
    /// <param name="accuracy">Relative accuracy.</param>
    /// <param name="threads">Threads that may work at once.</param>
    /// <param name="store">Where bytes are kept between processes; null for nowhere.</param>
    /// <exception cref="ArgumentException">As <see cref="PressureAtlas.Build"/>.</exception>
    /// <exception cref="PressureUnavailableException">As <see cref="PressureAtlas.Build"/>.</exception>
    public PressureAtlas Get(
        SailCraft craft,
        Beam beam,
        AtlasBox box,
        double accuracy,
        int threads = 1,
        IAtlasStore? store = null
    )
    {
        ArgumentNullException.ThrowIfNull(craft);
        ArgumentNullException.ThrowIfNull(beam);
        ArgumentNullException.ThrowIfNull(box);
        if (AtlasKey.Of(craft, beam, box, accuracy) is not { } key)
        {
            return PressureAtlas.Build(craft, beam, box, accuracy, threads);
        }
        Lazy<AtlasContent> content = Entry(key, () => Make(craft, beam, box, accuracy, threads, key, store));
        return PressureAtlas.From(craft, beam, content.Value);
    }

    private Lazy<AtlasContent> Entry(string key, Func<AtlasContent> make)
    {
        lock (_gate)
        {
            for (var node = _kept.First; node is not null; node = node.Next)
            {
                if (node.Value.Key == key)
                {
                    _kept.Remove(node);
                    _kept.AddFirst(node);
                    return node.Value.Content;
                }
            }
            Lazy<AtlasContent> content = new(make);
            _kept.AddFirst((key, content));
            if (_kept.Count > Room)
            {
                _kept.RemoveLast();
            }
            return content;
        }
    }

    private AtlasContent Make(
        SailCraft craft,
        Beam beam,
        AtlasBox box,
        double accuracy,
        int threads,
        string key,
        IAtlasStore? store
    )
    {
        if (store?.Read(key) is { } bytes)
        {
            if (AtlasFile.Read(bytes, key) is { } read)
            {
                return read;
            }
            store.Discarded(key);
        }
        AtlasContent built = PressureAtlas.Build(craft, beam, box, accuracy, threads).Content;
        lock (_gate)
        {
            Built++;
        }
        store?.Write(key, AtlasFile.Write(built, key));
        return built;
    }
}
