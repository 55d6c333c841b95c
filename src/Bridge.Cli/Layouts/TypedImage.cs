using Bridge.Jobs;
using Bridge.Layouts;

namespace Bridge.Cli;

/// <summary>bridge check --image: what somebody typed in from a sheet.</summary>
internal static class TypedImage
{
    /// <summary>The bytes of an image as typed, held row by row against those of a job where one is given.</summary>
    /// <exception cref="RefusedException">A row is wrong, missing, there twice, or not the job's.</exception>
    public static byte[] Read(string path, int recordBytes, byte[]? job)
    {
        var typed = TypedSheet.Read(path, recordBytes);
        return job is null || TypedSheet.Differences(typed, job, recordBytes) is not { Count: > 0 } differences ? typed
            : throw new RefusedException([.. differences.Select(row => row with { Place = $"{path}, {row.Place}" })]);
    }
}
