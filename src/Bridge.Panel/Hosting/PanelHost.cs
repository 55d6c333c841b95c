using System.Net;
using System.Net.Sockets;
using Bridge.Jobs;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using BadHttpRequestException = Microsoft.AspNetCore.Http.BadHttpRequestException;

namespace Bridge.Panel;

/// <summary>The panel while it is served: one machine, one job at hand, one run at a time, and up to eight pages.</summary>
public sealed class PanelHost : IAsyncDisposable
{
    private const int MostConnections = 64;

    private readonly WebApplication _app;
    private readonly RunDesk _runs;
    private readonly HandDesk _hand;

    private PanelHost(WebApplication app, RunDesk runs, HandDesk hand, JobDesk jobs, PanelAddress address, PanelKey key) =>
        (_app, _runs, _hand, Jobs, Address, Key) = (app, runs, hand, jobs, address, key);

    /// <summary>Where it is served.</summary>
    public PanelAddress Address { get; }

    /// <summary>The key of this start.</summary>
    public PanelKey Key { get; }

    /// <summary>The address to open, with the key in the part that a browser sends to nobody.</summary>
    public Uri Page => new(Address.Uri, $"#key={Key.Text}");

    /// <summary>The job at hand.</summary>
    public JobDesk Jobs { get; }

    /// <summary>Serves a panel.</summary>
    /// <param name="setting">What it is for.</param>
    /// <param name="listen">The address to listen on; loopback, unless there is a pass phrase.</param>
    /// <param name="port">The port; 0 for any that is free.</param>
    /// <exception cref="RefusedException">The address or the port cannot be had.</exception>
    public static async Task<PanelHost> StartAsync(PanelSetting setting, IPAddress listen, int port)
    {
        if (!IPAddress.IsLoopback(listen) && setting.PassPhrase is null)
            throw new ArgumentException("Beyond loopback there must be a pass phrase.", nameof(setting));
        var (key, board, occupancy) = (PanelKey.New(), new LiveBoard(setting.Time), new Occupancy());
        var before = new BeforeMotion(setting.Machine, setting.Devices.Port, setting.Checklist, setting.Runs, setting.Time);
        var (jobs, controls) = (new JobDesk(setting.Machine, setting.Time), new ControlsDesk(setting.Time));
        var runs = new RunDesk(setting, before, occupancy, board);
        var hand = new HandDesk(setting, before, occupancy, board);
        var bound = new BoundAddress();
        var app = Build(listen, port, controls);
        app.UseStatusCodePages(); // what is answered by a bare number gets its problem details too
        app.UseExceptionHandler(handler => handler.Run(AnswerTroubleAsync));
        app.Use(next => new RequestGuard(next, key, () => bound.Address).InvokeAsync);
        app.UseRouting(); // after the guard: what is not let through is not even looked up
        app.MapOpenApi($"{Paths.Api}/openapi.json");
        MapEnter(app, setting, key);
        app.MapPageFiles();
        var past = new PastRuns(setting.Runs, setting.Time);
        app.MapReports(past);
        var api = app.MapGroup(Paths.Api);
        var examples = new Examples(setting.Examples);
        api.MapGet("/panel", () => Results.Json(PanelView.Of(setting, examples), PanelJson.Options))
            .Produces<PanelView>().WithSummary("What the panel is for.");
        api.MapJobs(setting, jobs, examples);
        api.MapRuns(jobs, runs, hand, before, controls);
        api.MapHand(hand, controls);
        api.MapControls(controls);
        api.MapPastRuns(past);
        var events = new EventStream(board, controls, jobs, setting.Time);
        api.MapGet("/events", async (HttpContext context) => PageFilters.PageOf(context) is { } page
            ? await events.RunAsync(context, page, Linked(context, app)).ConfigureAwait(false)
            : Problems.Of(StatusCodes.Status400BadRequest, "Which page?", "Bridge-Page names it, letters and digits."))
            .WithSummary("What is to be seen, as server-sent events.");
        await StartAsync(app, listen, port).ConfigureAwait(false);
        var served = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
        bound.Address = new PanelAddress(listen, new Uri(served).Port);
        return new PanelHost(app, runs, hand, jobs, bound.Address, key);
    }

    /// <summary>Asks the machine to stop, if it moves, and then ends.</summary>
    public async ValueTask DisposeAsync()
    {
        await StopMachineAsync().ConfigureAwait(false);
        await _app.DisposeAsync().ConfigureAwait(false);
        Jobs.Dispose();
    }

    /// <summary>Asks a run or a hand to stop, and waits until it has.</summary>
    public Task StopMachineAsync() => Task.WhenAll(_runs.EndAsync(), _hand.LeaveAsync());

    /// <summary>Asks the machine to stop at once, motors off.</summary>
    public void Abort()
    {
        _runs.TryCommand(Wire.MachineCommand.Abort);
        _hand.TryCommand(Wire.MachineCommand.Abort);
    }

    private static WebApplication Build(IPAddress listen, int port, ControlsDesk controls)
    {
        var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory });
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxConcurrentConnections = MostConnections;
            kestrel.Limits.MaxRequestBodySize = JobDesk.MostBytes;
            kestrel.Listen(listen, port, on => on.Protocols = HttpProtocols.Http1);
        });
        builder.Services.AddSingleton(controls);
        builder.Services.AddOpenApi();
        builder.Services.ConfigureHttpJsonOptions(json => PanelJson.Set(json.SerializerOptions));
        builder.Services.AddProblemDetails();
        builder.Services.Configure<RouteHandlerOptions>(routes => routes.ThrowOnBadRequest = true);
        return builder.Build();
    }

    private static async Task StartAsync(WebApplication app, IPAddress listen, int port)
    {
        try
        {
            await app.StartAsync().ConfigureAwait(false);
        }
        catch (Exception taken) when (taken is IOException or SocketException)
        {
            await app.DisposeAsync().ConfigureAwait(false);
            throw new RefusedException(port == 0 ? $"--listen {listen}" : $"--port {port}", FoundBy(taken),
                $"a port that is free, of an address of this computer (asked for: {listen})", "Choose another one, or leave it out.");
        }
    }

    private static string FoundBy(Exception taken) => taken switch
    {
        SocketException { SocketErrorCode: SocketError.AddressNotAvailable } => "an address that this computer does not have",
        SocketException { SocketErrorCode: SocketError.AccessDenied } => "a port that needs more rights",
        { InnerException: { } inner } => FoundBy(inner),
        SocketException { SocketErrorCode: SocketError.AddressAlreadyInUse } => "a port that another program has",
        _ => taken.Message.TrimEnd('.'),
    };

    private static void MapEnter(WebApplication app, PanelSetting setting, PanelKey key)
    {
        if (setting.PassPhrase is not { } phrase)
            return;
        app.MapPost(Paths.Enter, (EnterWish wish) => phrase.Try(wish.Phrase) switch
        {
            true => Results.Json(new EnteredView(key.Text), PanelJson.Options),
            false => Problems.Of(StatusCodes.Status401Unauthorized, "Not the pass phrase.", "It stands in the file that --pass-phrase-file named."),
            null => Problems.Of(StatusCodes.Status429TooManyRequests, "Too many tries.", "Wait a second."),
        }).WithSummary("The key for the pass phrase.");
    }

    private static CancellationToken Linked(HttpContext context, WebApplication app)
    {
        var linked = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, app.Lifetime.ApplicationStopping);
        context.Response.RegisterForDispose(linked);
        return linked.Token;
    }

    private static Task AnswerTroubleAsync(HttpContext context) => context.Features.Get<IExceptionHandlerFeature>()?.Error switch
    {
        RefusedException refused => Problems.Of(refused).ExecuteAsync(context),
        BadHttpRequestException { StatusCode: StatusCodes.Status413PayloadTooLarge } => Problems.Write(context, StatusCodes.Status413PayloadTooLarge,
            "Too long.", $"Up to {JobDesk.MostBytes >> 20} MiB are taken."),
        BadHttpRequestException bad => Problems.Write(context, bad.StatusCode, "Not a good request.", bad.Message),
        { } error => Problems.Write(context, StatusCodes.Status500InternalServerError, "A mistake in the program.", $"{error.GetType().Name}: {error.Message}"),
        null => Task.CompletedTask,
    };

    private sealed class BoundAddress
    {
        public PanelAddress Address { get; set; } = new(IPAddress.None, 0);
    }
}

/// <summary>What a page gives to come in.</summary>
public sealed record EnterWish(string? Phrase);

/// <summary>What it gets.</summary>
public sealed record EnteredView(string Key);
