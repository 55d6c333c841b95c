namespace Board.Tests;

/// <summary>What the emulator, which brings no octet sooner than 352 cycles after another, does not bring about.</summary>
public class ReceiveInterruptTests
{
    /// <summary>
    /// The flags that it restores must be those from before it let the other interrupts in: with these it would let itself in too before it has left the stack,
    /// once for each octet for as long as octets wait.
    /// </summary>
    [BoardFact]
    public void The_receive_interrupt_keeps_the_flags_from_before_it_lets_others_in()
    {
        byte[] offAndOn = [0x80, 0x93, 0xC1, 0x00, 0x8F, 0xB7, 0x78, 0x94]; // sts UCSR0B, r24; in r24, SREG; sei
        Assert.True(Firmware.Binary.AsSpan().IndexOf(offAndOn) >= 0);
    }
}
