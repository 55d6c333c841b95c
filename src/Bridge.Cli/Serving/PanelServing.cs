using System.ComponentModel;
using System.Diagnostics;
using System.Net;
using Bridge.Panel;

namespace Bridge.Cli;

/// <summary>Serves the panel until it is told to end; a machine that moves is stopped first.</summary>
internal static class PanelServing
{
    public static async Task<int> RunAsync(Report report, PanelSetting setting, IPAddress listen, int port, bool opens)
    {
        using var collector = Collector.OfEnvironment();
        foreach (var line in Caution.Lines)
            report.Line(line);
        await using var panel = await PanelHost.StartAsync(setting, listen, port).ConfigureAwait(false);
        Tell(report, panel);
        if (opens && report.IsAttended)
            Open(report, panel.Page);
        var ended = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        using var ends = new EndRequests(
            times =>
            {
                if (times > 1)
                    panel.Abort();
                ended.TrySetResult();
            },
            () => ended.TrySetResult());
        await ended.Task.ConfigureAwait(false);
        report.Line("Ending; a machine that moves is asked to stop first. Ctrl-C again asks it to stop at once, motors off.");
        await panel.StopMachineAsync().ConfigureAwait(false);
        return ExitCode.Done;
    }

    private static void Tell(Report report, PanelHost panel)
    {
        if (panel.Address.IsOpen)
        {
            report.Line($"Others on the network may open {panel.Address.Uri} and give the pass phrase. What passes is not encrypted: "
                + "whoever can listen to the network can take the machine over. Use it on a network of your own alone.");
            report.Line("Start nothing from where you do not see the machine and reach its emergency stop: the page is none, and a tablet is no pair of eyes.");
            return;
        }

        report.Line("The panel is at this address; it has the key of this start, so give it to nobody:");
        report.Line($"{panel.Page}");
        report.Line("It is no emergency stop: stay by the real one. Ctrl-C ends.");
    }

    private static void Open(Report report, Uri page)
    {
        try
        {
            using var browser = Process.Start(new ProcessStartInfo($"{page}") { UseShellExecute = true });
        }
        catch (Exception error) when (error is Win32Exception or InvalidOperationException or PlatformNotSupportedException)
        {
            report.Line("No browser could be opened: open the address yourself.");
        }
    }
}
