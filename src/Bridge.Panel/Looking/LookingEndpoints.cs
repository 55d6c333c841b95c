using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Bridge.Panel;

/// <summary>What is asked about the runs that were.</summary>
internal static class LookingEndpoints
{
    public static void MapPastRuns(this IEndpointRouteBuilder api, PastRuns past)
    {
        api.MapGet("/runs", () => Results.Json(past.All(), PanelJson.Options)).Produces<PastRunsView>().WithSummary("The runs that were, the newest first.");
        api.MapPost("/runs/{run}/ticket", (string run) => Results.Json(new TicketView($"{Paths.Reports}/{past.TicketFor(run)}"), PanelJson.Options))
            .Produces<TicketView>().WithSummary("An address, good for a minute, under which a browser's own window shows the run's report.");
        api.MapGet("/runs/{run}/pictures/{file}", (string run, string file) => past.PictureOf(run, file) is { } picture
            ? Results.Bytes(picture, "image/png")
            : Problems.Of(StatusCodes.Status404NotFound, "No such picture.", "The run has no picture of that name.")).WithSummary("A picture of a layer.");
    }

    public static void MapReports(this IEndpointRouteBuilder app, PastRuns past) =>
        app.MapGet($"{Paths.Reports}/{{ticket}}", (HttpContext context, string ticket) =>
        {
            GuardHeaders.SetForReport(context.Response);
            return past.ReportOf(ticket) is { } report
                ? Results.Content(report, "text/html; charset=utf-8")
                : Problems.Of(StatusCodes.Status404NotFound, "An old address.", "Open the report from the panel again.");
        }).ExcludeFromDescription();
}

/// <summary>The path of a report.</summary>
public sealed record TicketView(string Path);
