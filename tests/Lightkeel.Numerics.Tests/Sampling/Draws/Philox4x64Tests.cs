using Lightkeel.Numerics.Sampling.Draws;
using Xunit;

namespace Lightkeel.Numerics.Tests.Sampling.Draws;

public class Philox4x64Tests
{
    private const ulong All = ulong.MaxValue;

    // Known answers published with the generator (SC'11, doi:10.1145/2063384.2063405): zeros, ones, digits of pi.
    // Confirmed with the Philox bit generator of NumPy 1.24.2.
    [Fact]
    public void Block_OfPublishedCounters_GivesPublishedWords()
    {
        Assert.Equal(
            new RandomBlock(0x16554D9ECA36314C, 0xDB20FE9D672D0FDC, 0xD7E772CEE186176B, 0x7E68B68AEC7BA23B),
            Philox4x64.Block(0, 0, 0, 0, 0, 0)
        );
        Assert.Equal(
            new RandomBlock(0x87B092C3013FE90B, 0x438C3C67BE8D0224, 0x9CC7D7C69CD777B6, 0xA09CAEBF594F0BA0),
            Philox4x64.Block(All, All, All, All, All, All)
        );
        Assert.Equal(
            new RandomBlock(0xA528F45403E61D95, 0x38C72DBD566E9788, 0xA5A1610E72FD18B5, 0x57BD43B5E52B7FE6),
            Philox4x64.Block(
                0x452821E638D01377,
                0xBE5466CF34E90C6C,
                0x243F6A8885A308D3,
                0x13198A2E03707344,
                0xA4093822299F31D0,
                0x082EFA98EC4E6C89
            )
        );
    }
}
