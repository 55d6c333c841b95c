namespace Bridge.Layouts;

/// <summary>Numbers on wires, the lowest bit first.</summary>
internal static class NetlistNumbers
{
    public static int[] Constant(this Netlist net, int number, int width) =>
        [.. Enumerable.Range(0, width).Select(bit => (number >> Math.Min(bit, 31) & 1) == 1 ? net.One : net.Zero)];

    /// <summary>A number with more or fewer bits.</summary>
    public static int[] Wide(this Netlist net, int[] number, int width, bool signed = false) =>
        [.. Enumerable.Range(0, width).Select(bit => bit < number.Length ? number[bit] : signed && number.Length > 0 ? number[^1] : net.Zero)];

    public static int Select(this Netlist net, int choice, int yes, int no) => net.Or(net.And(choice, yes), net.And(net.Not(choice), no));

    public static int[] Select(this Netlist net, int choice, int[] yes, int[] no) => [.. yes.Zip(no, (one, other) => net.Select(choice, one, other))];

    /// <summary>All bits of a number, or none of them.</summary>
    public static int[] Gate(this Netlist net, int open, int[] number) => [.. number.Select(bit => net.And(open, bit))];

    public static int[] Or(this Netlist net, int[] a, int[] b) => [.. a.Zip(b, (one, other) => net.Or(one, other))];

    public static int[] Not(this Netlist net, int[] number) => [.. number.Select(net.Not)];

    /// <summary>A ripple-carry adder; the sum has as many bits as the first number.</summary>
    public static int[] Add(this Netlist net, int[] a, int[] b, int carry)
    {
        var sum = new int[a.Length];
        for (var bit = 0; bit < a.Length; bit++)
        {
            var half = net.Xor(a[bit], b[bit]);
            sum[bit] = net.Xor(half, carry);
            carry = net.Or(net.And(a[bit], b[bit]), net.And(half, carry));
        }
        return sum;
    }

    public static int[] Subtract(this Netlist net, int[] a, int[] b) => net.Add(a, net.Not(b), net.One);

    public static int[] Increment(this Netlist net, int[] number) => net.Add(number, net.Constant(0, number.Length), net.One);

    public static int[] Decrement(this Netlist net, int[] number) => net.Add(number, net.Constant(-1, number.Length), net.Zero);

    public static int IsZero(this Netlist net, int[] number) => net.Not(net.Or(number));

    public static int AreEqual(this Netlist net, int[] a, int[] b) => net.Not(net.Or(a.Zip(b, net.Xor)));

    /// <summary>Whether a number is larger than another of as many bits: the highest bit in which they differ decides.</summary>
    public static int IsGreater(this Netlist net, int[] a, int[] b)
    {
        var greater = net.Zero;
        for (var bit = 0; bit < a.Length; bit++)
            greater = net.Select(net.Xor(a[bit], b[bit]), a[bit], greater);
        return greater;
    }
}
