using Bridge.Jobs;

namespace Bridge.Cli;

/// <summary>Reads a machine file that a person named.</summary>
internal static class MachineInput
{
    /// <summary>The machine, and the bytes that say so.</summary>
    public static Machine Read(string path, out byte[] bytes)
    {
        bytes = InputFile.ReadAll(path, MachineFile.MaxBytes);
        return MachineFile.Parse(bytes, path);
    }
}
