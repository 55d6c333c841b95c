using Bridge.Runs;
using OpenTelemetry;
using OpenTelemetry.Exporter;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;

namespace Bridge.Cli;

/// <summary>
/// Sends what runs tell to a collector over OTLP, where OTEL_EXPORTER_OTLP_ENDPOINT names one; the other variables of the OpenTelemetry specification
/// count too. One that is not there costs a run nothing but a moment at its end.
/// </summary>
internal sealed class Collector : IDisposable
{
    private const int PatienceMs = 2000;

    private readonly TracerProvider _traces;
    private readonly MeterProvider _metrics;

    private Collector()
    {
        static void Patient(OtlpExporterOptions options) => options.TimeoutMilliseconds = PatienceMs;
        var resource = ResourceBuilder.CreateDefault().AddService("bridge").AddEnvironmentVariableDetector();
        _traces = Sdk.CreateTracerProviderBuilder().SetResourceBuilder(resource).AddSource(RunTelemetry.Name).AddOtlpExporter(Patient).Build();
        _metrics = Sdk.CreateMeterProviderBuilder().SetResourceBuilder(resource).AddMeter(RunTelemetry.Name).AddOtlpExporter(Patient).Build();
    }

    /// <summary>The collector that the environment names; null where it names none.</summary>
    public static Collector? OfEnvironment() =>
        string.IsNullOrWhiteSpace(Environment.GetEnvironmentVariable("OTEL_EXPORTER_OTLP_ENDPOINT")) ? null : new Collector();

    public void Dispose()
    {
        _traces.ForceFlush(PatienceMs);
        _metrics.ForceFlush(PatienceMs);
        _traces.Dispose();
        _metrics.Dispose();
    }
}
