using System.Xml;
using System.Xml.Linq;
using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>The elements of an SVG file, within bounds. Document types are passed over, so that no entity is ever replaced or fetched.</summary>
internal static class SvgDocument
{
    /// <summary>Most bytes of a file: 32 MiB.</summary>
    public const int MostBytes = 32 << 20;

    /// <summary>Most elements in elements: 200.</summary>
    public const int MostDepth = 200;

    /// <summary>Most elements, attributes and texts in all: 500 000.</summary>
    public const int MostNodes = 500_000;

    /// <summary>The namespace of SVG.</summary>
    public static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>The root element of a file; its elements know their lines.</summary>
    /// <exception cref="RefusedException">It is no whole SVG, or beyond a bound; what is too much is not kept.</exception>
    public static XElement Read(ReadOnlySpan<byte> content, string name)
    {
        if (content.Length > MostBytes)
            throw new RefusedException(name, $"{content.Length} bytes", $"up to {MostBytes} bytes", "Make the drawing simpler.");
        var bytes = content.ToArray();
        try
        {
            Count(bytes, name);
            using var reader = Reader(bytes);
            var root = XElement.Load(reader, LoadOptions.SetLineInfo);
            return IsSvg(root, "svg")
                ? root
                : throw new RefusedException(name, $"a document of <{root.Name.LocalName}>", "one of <svg>", "Save the drawing as SVG.");
        }
        catch (Exception broken) when (broken is XmlException or ArgumentException)
        {
            var (line, column) = broken is XmlException { LineNumber: > 0 } at ? (at.LineNumber, at.LinePosition) : (1, 1);
            throw new RefusedException($"{name}, line {line}, column {column}", "XML that is broken there, or an entity",
                "well-formed XML without entities of its own", "Save the drawing again, as plain SVG.");
        }
    }

    /// <summary>Whether an element has a name of SVG; files without a namespace are taken as SVG too.</summary>
    public static bool IsSvg(XElement element, string name) => LocalName(element) == name;

    /// <summary>The name of an element; null where it is none of SVG.</summary>
    public static string? LocalName(XElement element) =>
        element.Name.Namespace == Svg || element.Name.Namespace == XNamespace.None ? element.Name.LocalName : null;

    /// <summary>Where an element stands.</summary>
    public static string Place(XElement element, string name) =>
        ((IXmlLineInfo)element).HasLineInfo() ? $"{name}, line {((IXmlLineInfo)element).LineNumber}" : name;

    // Before anything is kept.
    private static void Count(byte[] bytes, string name)
    {
        using var reader = Reader(bytes);
        var nodes = 0L;
        while (reader.Read())
        {
            nodes += 1 + reader.AttributeCount;
            if (reader.Depth > MostDepth || nodes > MostNodes)
                throw new RefusedException($"{name}, line {((IXmlLineInfo)reader).LineNumber}",
                    reader.Depth > MostDepth ? $"more than {MostDepth} elements in one another" : $"more than {MostNodes} elements, attributes and texts",
                    $"up to {MostDepth} in one another, {MostNodes} in all", "Make the drawing simpler.");
        }
    }

    private static XmlReader Reader(byte[] bytes) => XmlReader.Create(new MemoryStream(bytes, writable: false), new XmlReaderSettings
    {
        DtdProcessing = DtdProcessing.Ignore,
        XmlResolver = null,
        IgnoreComments = true,
        IgnoreProcessingInstructions = true,
        IgnoreWhitespace = true,
        MaxCharactersInDocument = MostBytes,
    });
}
