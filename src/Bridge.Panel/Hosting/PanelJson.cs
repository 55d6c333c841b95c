using System.Text.Json;
using System.Text.Json.Serialization;

namespace Bridge.Panel;

/// <summary>How the panel writes and reads JSON.</summary>
internal static class PanelJson
{
    public static JsonSerializerOptions Options { get; } = Set(new JsonSerializerOptions(JsonSerializerDefaults.Web));

    public static JsonSerializerOptions Set(JsonSerializerOptions options)
    {
        options.Converters.Add(new JsonStringEnumConverter());
        options.MaxDepth = 16;
        options.NumberHandling = JsonNumberHandling.Strict;
        return options;
    }
}
