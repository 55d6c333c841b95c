using System.Collections.Concurrent;

namespace Board.Tests;

/// <summary>The small programs beside these tests, compiled once.</summary>
internal static class TestPrograms
{
    private static readonly ConcurrentDictionary<string, Lazy<byte[]>> Compiled = new();

    public static AvrChip Start(string name) =>
        new(Compiled.GetOrAdd(name, _ => new(() => AvrProgram.Compile(Path.Combine(Vectors.Root, "tests", "Board.Tests", "Programs", name + ".c")))).Value);
}
