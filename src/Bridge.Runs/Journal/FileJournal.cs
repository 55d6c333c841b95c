using System.Text.Json;
using System.Text.Json.Serialization;

namespace Bridge.Runs;

/// <summary>A journal in a file: one entry a line, in JSON, written through to the disk.</summary>
public sealed class FileJournal : IJournal, IDisposable
{
    /// <summary>Version of the journal's format.</summary>
    public const int Format = 1;

    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web)
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    private readonly Stream _file;
    private long _length;

    /// <summary>Creates the file; it must not be there yet.</summary>
    /// <exception cref="IOException">It is there, or cannot be made.</exception>
    public FileJournal(string path)
        : this(new FileStream(path, FileMode.CreateNew, FileAccess.Write, FileShare.Read, 1, FileOptions.WriteThrough))
    {
    }

    /// <summary>Writes to a stream that can be cut back to an earlier length.</summary>
    public FileJournal(Stream file) => _file = file;

    /// <summary>Reads the entries of a journal. A last line that was cut in the middle of its write is left out.</summary>
    public static IEnumerable<JournalEntry> Read(string path)
    {
        foreach (var line in File.ReadLines(path))
        {
            JournalEntry? entry;
            try
            {
                entry = JsonSerializer.Deserialize<JournalEntry>(line, Options);
            }
            catch (JsonException)
            {
                yield break;
            }

            if (entry is not null)
                yield return entry;
        }
    }

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
