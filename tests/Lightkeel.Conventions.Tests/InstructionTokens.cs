using System.Buffers.Binary;
using System.Reflection;
using System.Reflection.Emit;

namespace Lightkeel.Conventions.Tests;

/// <summary>Finds the metadata tokens in a method's instructions (ECMA-335, partition III).</summary>
internal static class InstructionTokens
{
    private static readonly Dictionary<int, OperandType> Operands = typeof(OpCodes)
        .GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(field => (OpCode)field.GetValue(null)!)
        .ToDictionary(code => code.Value & 0xFFFF, code => code.OperandType);

    /// <summary>The tokens of types, methods and fields, in their order.</summary>
    public static IEnumerable<int> In(byte[] code)
    {
        int at = 0;
        while (at < code.Length)
        {
            int opcode = code[at++];
            if (opcode == 0xFE)
            {
                opcode = 0xFE00 | code[at++];
            }
            OperandType operand = Operands[opcode];
            if (
                operand
                is OperandType.InlineField
                    or OperandType.InlineMethod
                    or OperandType.InlineType
                    or OperandType.InlineTok
            )
            {
                yield return BinaryPrimitives.ReadInt32LittleEndian(code.AsSpan(at));
            }
            at += Length(operand, code, at);
        }
    }

    private static int Length(OperandType operand, byte[] code, int at) =>
        operand switch
        {
            OperandType.InlineNone => 0,
            OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
            OperandType.InlineVar => 2,
            OperandType.InlineI8 or OperandType.InlineR => 8,
            OperandType.InlineSwitch => 4 + 4 * BinaryPrimitives.ReadInt32LittleEndian(code.AsSpan(at)),
            _ => 4,
        };
}
