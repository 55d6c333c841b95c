using Bridge.Jobs;
using Bridge.Layouts;

namespace Bridge.Cli;

/// <summary>bridge check --image: what somebody typed in from a sheet.</summary>
internal static class TypedImage
{
    /// <summary>The bytes of an image as typed, held row by row against those of a job where one is given.</summary>
    /// <exception cref="RefusedException">A row is wrong, missing, there twice, or not the job's.</exception>
    public static byte[] Read(string path, int recordBytes, byte[]? job) => TypedSheet.Read(path, recordBytes, job);
}
