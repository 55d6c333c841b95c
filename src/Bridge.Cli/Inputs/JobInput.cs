using Bridge.Jobs;

namespace Bridge.Cli;

/// <summary>Reads a job that a person named: a job file, or with --raw the bytes of a store.</summary>
internal static class JobInput
{
    /// <summary>The job; a raw image is taken as one for the given machine.</summary>
    public static JobFile Read(string path, bool raw, Machine machine) => raw
        ? new JobFile(machine.Grid, machine.Digest, Image.Parse(machine.Width, InputFile.ReadAll(path, Image.LargestBytes), path))
        : JobFile.Read(path);
}
