using Bridge.Jobs;
using Bridge.Planning;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Bridge.Panel;

/// <summary>What is asked about the job at hand.</summary>
internal static class JobEndpoints
{
    private const int LongestName = 200;
    private const int LongestText = 500;
    private const int MostRecords = 1000;

    public static void MapJobs(this IEndpointRouteBuilder api, PanelSetting setting, JobDesk jobs, Examples examples)
    {
        api.MapPost("/job", async (HttpContext context, string? name, string? example, string? text, [AsParameters] PlanOptions options) =>
        {
            var made = await MakeAsync(jobs, examples, context, (name, example, text), options).ConfigureAwait(false);
            return made is null
                ? Problems.NotNow("A plan is being made.", "Wait until it is done, 60 s at most, and ask again.")
                : Results.Json(JobView.Of(made, setting.Machine), PanelJson.Options);
        }).HeldOnly().Accepts<byte[]>("application/octet-stream").Produces<JobView>()
            .WithSummary("Plan a shape, or read a job file; it is then the job at hand.");
        api.MapGet("/job", () => With(jobs, job => Results.Json(JobView.Of(job, setting.Machine), PanelJson.Options)))
            .Produces<JobView>().WithSummary("The job at hand.");
        api.MapGet("/job/file", () => With(jobs, job => Results.File(job.Bytes, "application/octet-stream", FileNameOf(job))))
            .WithSummary("The job file.");
        api.MapGet("/job/layers/{layer:int}", (int layer) => With(jobs, job => JobDesk.CellsOf(job, layer) is { } cells
            ? Results.Bytes(cells, "application/octet-stream")
            : Problems.Of(StatusCodes.Status404NotFound, "Nothing there.", $"The job works nothing on layer {layer}.")))
            .WithSummary("The cells worked on a layer, in working order.");
        api.MapGet("/job/records", (int? from, int? count) =>
            With(jobs, job => Results.Json(Records(job.File.Image, from ?? 0, count ?? 100), PanelJson.Options)))
            .Produces<RecordsView>().WithSummary("Records as bytes, bits and words.");
    }

    private static async Task<JobAtHand?> MakeAsync(
        JobDesk jobs, Examples examples, HttpContext context, (string? Name, string? Example, string? Text) what, PlanOptions options)
    {
        switch (what)
        {
            case ({ Length: <= LongestName } name, null, null):
                if (Path.GetFileName(name) != name || name.Any(char.IsControl))
                    throw new RefusedException("name", name, "the name of a file without a folder", "Drop the file itself.");
                var bytes = await BodyAsync(context).ConfigureAwait(false);
                return Path.GetExtension(name).Equals(".job", StringComparison.OrdinalIgnoreCase)
                    ? await jobs.ReadAsync(bytes, name).ConfigureAwait(false)
                    : await jobs.PlanAsync(ShapeSource.Bytes(bytes, name), options, context.RequestAborted).ConfigureAwait(false);
            case (null, { } example, null):
                return await jobs.PlanAsync(examples.Source(example), options, context.RequestAborted).ConfigureAwait(false);
            case (null, null, { Length: > 0 and <= LongestText } text):
                return await jobs.PlanAsync(ShapeSource.Text(text, null), options, context.RequestAborted).ConfigureAwait(false);
            default:
                throw new RefusedException("name, example, text", "none, several, or too long ones",
                    $"one of: the name of a file ({LongestName} characters), an example, text ({LongestText} characters)", "Choose one.");
        }
    }

    private static async Task<byte[]> BodyAsync(HttpContext context)
    {
        using var body = new MemoryStream();
        await context.Request.Body.CopyToAsync(body, context.RequestAborted).ConfigureAwait(false);
        return body.ToArray();
    }

    private static IResult With(JobDesk jobs, Func<JobAtHand, IResult> answer) => jobs.Present is { } job
        ? answer(job)
        : Problems.Of(StatusCodes.Status404NotFound, "No job is at hand.", "Drop a shape, or choose an example.");

    private static RecordsView Records(Image image, int from, int count) => from < 0 || count is < 1 or > MostRecords
        ? throw new RefusedException("from, count", $"{from}, {count}", $"from 0; 1 to {MostRecords}", "Ask for a part of them.")
        : new RecordsView([.. Enumerable.Range(from, Math.Max(0, Math.Min(count, image.Count - from))).Select(index => RecordView.Of(image, index))]);

    private static string FileNameOf(JobAtHand job)
    {
        var plain = string.Concat(Path.GetFileNameWithoutExtension(job.Name)
            .Select(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '_' ? letter : '-'));
        return $"{(plain.Length == 0 ? "job" : plain[..Math.Min(plain.Length, 40)])}.job";
    }
}

/// <summary>Some of a job's records.</summary>
public sealed record RecordsView(IReadOnlyList<RecordView> Records);
