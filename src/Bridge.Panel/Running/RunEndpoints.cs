using Bridge.Jobs;
using Bridge.Wire;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Bridge.Panel;

/// <summary>A command for the machine.</summary>
/// <param name="Command">Its standard name.</param>
public sealed record CommandWish(string? Command);

/// <summary>What is asked of a run.</summary>
internal static class RunEndpoints
{
    private static readonly string[] ForEveryPage = ["Hold", "Stop", "Abort"];

    public static void MapRuns(this IEndpointRouteBuilder api, JobDesk jobs, RunDesk runs, HandDesk hand, BeforeMotion before, ControlsDesk controls)
    {
        api.MapGet("/checklist", () => Results.Json(before.Asked(), PanelJson.Options))
            .Produces<ChecklistView>().WithSummary("What is asked before a real machine moves.");
        api.MapPost("/run", async (RunWish wish) =>
        {
            if (jobs.Present is not { } job)
                return Problems.NotNow("No job is at hand.", "Plan one first.");
            await hand.LeaveAsync().ConfigureAwait(false);
            return Answer(await runs.TryStartAsync(job, wish).ConfigureAwait(false));
        }).HeldOnly().WithSummary("Run the job at hand: dry on the mock device, or on the machine.");
        api.MapPost("/run/command", (HttpContext context, CommandWish wish) =>
        {
            var command = Named(wish.Command, MachineCommand.Hold, MachineCommand.Unhold, MachineCommand.Stop, MachineCommand.Abort);
            if (!MayAsk(context, controls, command))
                return Problems.NotNow("Another page holds the controls.", "Ask it for them. Hold, Stop and Abort are for every page.");
            return runs.TryCommand(command) ? Results.Accepted() : Problems.NotNow("No run goes on.", "There is nothing to command.");
        }).WithSummary("Hold, Unhold, Stop or Abort the run. Hold, Stop and Abort may be asked by every page.");
    }

    /// <summary>What came of a start.</summary>
    public static IResult Answer(RunTrouble? trouble) => trouble switch
    {
        null => Results.Accepted(),
        { IsOccupied: true } => Problems.NotNow("It cannot be now.", trouble.Words),
        _ => Problems.Of(StatusCodes.Status503ServiceUnavailable, "The device cannot be had.", trouble.Words),
    };

    /// <summary>Whether a page may ask for a command: the one that holds the controls for all, every page for those that bring the machine to rest.</summary>
    public static bool MayAsk(HttpContext context, ControlsDesk controls, MachineCommand command) =>
        PageFilters.PageOf(context) is { } page && (ForEveryPage.Contains($"{command}") || controls.IsHeldBy(page));

    /// <summary>A command by its name.</summary>
    /// <exception cref="RefusedException">It is none of those that may be given here.</exception>
    public static MachineCommand Named(string? name, params MachineCommand[] allowed)
    {
        var found = allowed.FirstOrDefault(command => $"{command}" == name);
        return found != MachineCommand.Undefined ? found
            : throw new RefusedException("command", name is { Length: <= 20 } ? name : "none", string.Join(", ", allowed), "Give one of these.");
    }
}
