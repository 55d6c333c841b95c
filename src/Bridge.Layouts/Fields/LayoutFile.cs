using Bridge.Jobs;

namespace Bridge.Layouts;

/// <summary>Reads a layout: one TOML page (format 1) that says how a machine's records hold what they mean.</summary>
public static class LayoutFile
{
    /// <summary>The format that this program reads.</summary>
    public const int Format = 1;

    /// <summary>Largest layout file in bytes: 64 KiB.</summary>
    public const int MaxBytes = MachineFile.MaxBytes;

    /// <summary>Reads the file at a path.</summary>
    /// <exception cref="RefusedException">It cannot be read, or it holds mistakes; all that were found are listed.</exception>
    public static Layout Read(string path) => Parse(InputFile.ReadAll(path, MaxBytes), path);

    /// <summary>Reads a file's bytes, UTF-8; messages call the file by the name.</summary>
    /// <exception cref="RefusedException">They hold mistakes; all found are listed in the order of their places.</exception>
    public static Layout Parse(ReadOnlySpan<byte> bytes, string name)
    {
        var mistakes = new MachineFileMistakes(name);
        var text = MachineFileText.Decode(bytes, mistakes);
        mistakes.RefuseIfAny();
        var file = new LayoutSettings(MachineFileDocument.Parse(text, mistakes), mistakes);
        var layout = new LayoutReader(file).Read();
        mistakes.RefuseIfAny();
        return layout;
    }
}
