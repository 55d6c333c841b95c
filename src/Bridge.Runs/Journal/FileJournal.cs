using System.Text.Json;
using System.Text.Json.Serialization;
using Bridge.Jobs;

namespace Bridge.Runs;

/// <summary>A journal in a file: one entry a line, in JSON, each chained to the one before, written through to the disk (JOURNAL.md).</summary>
public sealed class FileJournal : IJournal, IDisposable
{
    /// <summary>Version of the journal's format.</summary>
    public const int Format = 2;

    /// <summary>What is added to the journal's name for the file that keeps other programs from writing it.</summary>
    internal const string LockSuffix = ".lock";

    internal static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Converters = { new JsonStringEnumConverter<AxisName>() },
    };

    private readonly Stream _file;
    private readonly FileStream? _hold; // nobody else writes while it is open
    private long _length;
    private JournalChain? _chain;

    /// <summary>Creates the file; it must not be there yet.</summary>
    /// <exception cref="IOException">It is there, or cannot be made.</exception>
    public FileJournal(string path)
        : this(path, FileMode.CreateNew, JournalFile.Empty)
    {
    }

    private FileJournal(string path, FileMode mode, JournalFile read)
    {
        _hold = new FileStream(path + LockSuffix, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        try
        {
            _file = new FileStream(path, mode, FileAccess.Write, FileShare.Read, 1, FileOptions.WriteThrough);
        }
        catch
        {
            _hold.Dispose();
            throw;
        }

        if (_file.Length != read.Length) // whoever goes on with a run adds more than a cut line can hold
        {
            _file.Dispose();
            _hold.Dispose();
            throw new IOException("another program has gone on with it meanwhile");
        }

        (_length, _chain) = (read.WholeLength, read.Chain);
    }

    /// <summary>Writes to a stream behind the entries that it holds; what is beyond them is cut off with the first entry.</summary>
    /// <param name="file">A stream that can be cut back to an earlier length.</param>
    /// <param name="read">What was read of it.</param>
    public FileJournal(Stream file, JournalFile read) => (_file, _length, _chain) = (file, read.WholeLength, read.Chain);

    /// <summary>The link of the last entry; null where entries are not chained, as in a journal that another version began.</summary>
    public JournalChain? Chain => _chain;

    /// <summary>Opens a journal to go on with. Only one program can have it open so.</summary>
    /// <param name="path">The file.</param>
    /// <param name="read">What was read of it; what follows its whole entries was never counted and is cut off.</param>
    /// <exception cref="IOException">It is not there, another program has it, or it was written since it was read.</exception>
    public static FileJournal GoOn(string path, JournalFile read) => new(path, FileMode.Open, read);

    /// <inheritdoc/>
    public bool TryAppend(JournalEntry entry, out string why)
    {
        var json = JsonSerializer.SerializeToUtf8Bytes(entry, Options);
        var body = json.AsSpan(0, json.Length - 1); // the link of the chain goes before its closing brace
        var link = _chain?.Over(body);
        byte[] line = [.. link?.Line(body) ?? json, (byte)'\n'];
        try
        {
            CutBack();
            _file.Write(line);
            Flush();
            (_length, _chain) = (_length + line.Length, link);
            why = "";
            return true;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            why = error.Message;
            return false;
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        try
        {
            if (_file.CanWrite) // else it is disposed of already
                CutBack();
            _file.Dispose();
        }
        catch (IOException)
        {
            // Every entry that was acknowledged is on the disk already; what may be left behind is a cut line, and readers leave that out.
        }

        _hold?.Dispose();
    }

    // A write that failed half-way leaves part of a line behind.
    private void CutBack()
    {
        if (_file.Length != _length)
            _file.SetLength(_length);
        _file.Position = _length;
    }

    private void Flush()
    {
        if (_file is FileStream file)
            file.Flush(flushToDisk: true);
        else
            _file.Flush();
    }
}
