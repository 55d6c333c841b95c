using System.Text.Json;
using System.Text.Json.Serialization;

namespace Bridge.Runs;

/// <summary>A journal in a file: one entry a line, in JSON, written through to the disk.</summary>
public sealed class FileJournal : IJournal, IDisposable
{
    /// <summary>Version of the journal's format.</summary>
    public const int Format = 1;

    internal static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    private readonly Stream _file;
    private readonly FileStream? _hold; // nobody else writes while it is open
    private long _length;

    /// <summary>Creates the file; it must not be there yet.</summary>
    /// <exception cref="IOException">It is there, or cannot be made.</exception>
    public FileJournal(string path)
        : this(path, FileMode.CreateNew, 0)
    {
    }

    private FileJournal(string path, FileMode mode, long length)
    {
        _hold = new FileStream(path + ".lock", FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        try
        {
            _file = new FileStream(path, mode, FileAccess.Write, FileShare.Read, 1, FileOptions.WriteThrough);
        }
        catch
        {
            _hold.Dispose();
            throw;
        }

        _length = length;
    }

    /// <summary>Writes to a stream behind what it holds already; what is beyond that is cut off with the first entry.</summary>
    /// <param name="file">A stream that can be cut back to an earlier length.</param>
    /// <param name="length">Octets of it that count.</param>
    public FileJournal(Stream file, long length = 0) => (_file, _length) = (file, length);

    /// <summary>Opens a journal to go on with. Only one program can have it open so.</summary>
    /// <param name="path">The file.</param>
    /// <param name="length">Octets of its whole entries; what follows them was never counted and is cut off.</param>
    /// <exception cref="IOException">It is not there, or another program has it.</exception>
    public static FileJournal GoOn(string path, long length) => new(path, FileMode.Open, length);

    /// <inheritdoc/>
    public bool TryAppend(JournalEntry entry, out string why)
    {
        byte[] line = [.. JsonSerializer.SerializeToUtf8Bytes(entry, Options), (byte)'\n'];
        try
        {
            CutBack();
            _file.Write(line);
            Flush();
            _length += line.Length;
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
