using System.Buffers.Text;
using System.Numerics;
using System.Text;
using Bridge.Jobs;

namespace Bridge.Planning;

/// <summary>STL as text: solid, facet normal, outer loop, three times vertex, endloop, endfacet, endsolid. Words are parted by any white space.</summary>
internal ref struct StlText
{
    private readonly ReadOnlySpan<byte> _text;
    private readonly string _name;
    private readonly List<Vector3> _corners = [];
    private int _at;
    private int _line = 1;

    private StlText(ReadOnlySpan<byte> text, string name)
    {
        _text = text;
        _name = name;
    }

    /// <summary>Whether bytes begin as text does.</summary>
    public static bool IsText(ReadOnlySpan<byte> content)
    {
        var reader = new StlText(content, "");
        return reader.Next().SequenceEqual("solid"u8);
    }

    /// <summary>The corners of all facets.</summary>
    /// <exception cref="RefusedException">A word is not the one that comes there, or there are too many facets.</exception>
    public static Vector3[] Read(ReadOnlySpan<byte> text, string name)
    {
        var reader = new StlText(text, name);
        while (reader.ReadSolid())
        {
        }
        return [.. reader._corners];
    }

    private bool ReadSolid()
    {
        var word = Next();
        if (word.IsEmpty)
            return false;
        if (!word.SequenceEqual("solid"u8))
            throw Refused(word, "solid");
        SkipLine(); // its name may be anything
        while (true)
        {
            word = Next();
            if (word.SequenceEqual("endsolid"u8))
                break;
            if (!word.SequenceEqual("facet"u8))
                throw Refused(word, "facet or endsolid");
            ReadFacet();
        }
        SkipLine();
        return true;
    }

    private void ReadFacet()
    {
        Expect("normal"u8);
        for (var i = 0; i < 3; i++)
            Next(); // the corners say it
        Expect("outer"u8);
        Expect("loop"u8);
        for (var i = 0; i < 3; i++)
        {
            Expect("vertex"u8);
            _corners.Add(new Vector3(Number(), Number(), Number()));
        }
        Expect("endloop"u8);
        Expect("endfacet"u8);
        StlFile.CheckCount(_corners.Count / 3, _name);
    }

    private void Expect(ReadOnlySpan<byte> wanted)
    {
        var word = Next();
        if (!word.SequenceEqual(wanted))
            throw Refused(word, Encoding.ASCII.GetString(wanted));
    }

    private float Number()
    {
        var word = Next();
        return Utf8Parser.TryParse(word, out float number, out var used) && used == word.Length ? number : throw Refused(word, "a number");
    }

    private ReadOnlySpan<byte> Next()
    {
        for (; _at < _text.Length && IsSpace(_text[_at]); _at++)
            _line += _text[_at] == (byte)'\n' ? 1 : 0;
        var start = _at;
        while (_at < _text.Length && !IsSpace(_text[_at]))
            _at++;
        return _text[start.._at];
    }

    private void SkipLine()
    {
        while (_at < _text.Length && _text[_at] != (byte)'\n')
            _at++;
    }

    private static bool IsSpace(byte character) => character is (byte)' ' or (byte)'\n' or (byte)'\r' or (byte)'\t';

    private readonly RefusedException Refused(ReadOnlySpan<byte> word, string wanted) => new($"{_name}, line {_line}",
        word.IsEmpty ? "the end of the file" : word.Length <= 20 ? $"'{Encoding.Latin1.GetString(word)}'" : "a long word", wanted,
        "Is the file whole? Save the mesh again as STL.");
}
