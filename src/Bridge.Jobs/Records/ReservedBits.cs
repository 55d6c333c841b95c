namespace Bridge.Jobs;

/// <summary>Bits that a verb does not use are zero; anything else is refused.</summary>
public static class ReservedBits
{
    /// <summary>The names of the fields that should be zero in a record and are not; empty where it is well formed.</summary>
    public static string SetIn(Record record)
    {
        var names = new List<string>();
        Refuse(UsesHead(record), record.Head != Head.A, "head");
        Refuse(UsesHeading(record), record.Heading != 0, "heading");
        Refuse(UsesRise(record), record.Rise, "rise");
        Refuse(UsesXy(record), record.X != 0, "x");
        Refuse(UsesXy(record), record.Y != 0, "y");
        Refuse(UsesPq(record), record.P != 0, "p");
        Refuse(UsesPq(record), record.Q != 0, "q");
        if (record.Verb == Verb.Wait && record.Heading > 1)
            names.Add("heading above 1");
        return string.Join(", ", names);

        void Refuse(bool used, bool set, string name)
        {
            if (!used && set)
                names.Add(name);
        }
    }

    private static bool UsesHead(Record record) => record.Verb is Verb.Go or Verb.Row or Verb.Patch or Verb.Line;

    private static bool UsesHeading(Record record) => record.Verb is Verb.Row or Verb.Patch or Verb.Wait;

    private static bool UsesRise(Record record) => record.Verb is Verb.Go or Verb.Row or Verb.Patch or Verb.Line or Verb.Wait;

    private static bool UsesXy(Record record) => record.Verb is Verb.Go or Verb.Row or Verb.Patch or Verb.Line or Verb.Again;

    private static bool UsesPq(Record record) =>
        record.Verb is Verb.Row or Verb.Patch or Verb.Again || (record.Verb == Verb.Wait && record.Heading == 0);
}
