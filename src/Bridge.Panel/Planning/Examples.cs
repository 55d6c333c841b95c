using Bridge.Jobs;
using Bridge.Planning;

namespace Bridge.Panel;

/// <summary>The example shapes that come with the program.</summary>
/// <param name="folder">Where they are; null for nowhere.</param>
internal sealed class Examples(string? folder)
{
    private static readonly string[] Kinds = [".txt", ".csv", ".png", ".svg", ".stl"];

    /// <summary>Their names.</summary>
    public IReadOnlyList<string> Names { get; } = folder is null || !Directory.Exists(folder) ? []
        : [.. Directory.EnumerateFiles(folder).Select(path => Path.GetFileName(path)).Where(name => Kinds.Contains(Path.GetExtension(name)))
            .Order(StringComparer.Ordinal)];

    /// <summary>One of them.</summary>
    /// <exception cref="RefusedException">There is none of that name.</exception>
    public ShapeSource Source(string name) => Names.Contains(name)
        ? ShapeSource.Bytes(InputFile.ReadAll(Path.Combine(folder!, name), JobDesk.MostBytes), name)
        : throw new RefusedException("example", "a name that no example has", string.Join(", ", Names), "Choose one of these.");
}
