using System.Text.Json;
using FuelHistory.Contracts;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Http;

/// <summary>The shape of single JSON values: text, numbers, yes/no and instants.</summary>
internal static class ShapeOfValues
{
    public static void Check(Faults faults, string pointer, JsonElement value, Type type)
    {
        if (type == typeof(bool))
        {
            Wanted(faults, pointer, value, value.ValueKind is JsonValueKind.True or JsonValueKind.False, "true or false");
        }
        else if (type == typeof(DateTimeOffset))
        {
            Wanted(faults, pointer, value, value.ValueKind == JsonValueKind.String && Instants.TryRead(value.GetString()!, out _), $"a date-time with its offset ({Instants.Hint})");
        }
        else if (type == typeof(string))
        {
            if (Wanted(faults, pointer, value, value.ValueKind == JsonValueKind.String, "text in quotes"))
            {
                Text(faults, pointer, value);
            }
        }
        else if (Wanted(faults, pointer, value, value.ValueKind == JsonValueKind.Number, "a number without quotes"))
        {
            Number(faults, pointer, value, type);
        }
    }

    /// <summary>Control characters other than tab and line feed have no business in a text and harm terminals and logs.</summary>
    public static void Text(Faults faults, string pointer, string text)
    {
        var bad = text.FirstOrDefault(c => (c < ' ' && c is not ('\t' or '\n')) || c == '\u007f');
        if (bad != default || text.Contains('\0', StringComparison.Ordinal))
        {
            faults.Add(pointer, Problems.Malformed, $"{Names.Field(pointer)} holds the control character U+{(int)bad:X4}; only tab and line feed are kept in text. Remove it.");
        }
    }

    public static string Kind(JsonElement value) => value.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => "a list",
        JsonValueKind.String => $"the text {Shown(value)}",
        JsonValueKind.Number => $"the number {Shown(value)}",
        JsonValueKind.True or JsonValueKind.False => value.GetRawText(),
        _ => "null",
    };

    private static void Text(Faults faults, string pointer, JsonElement value)
    {
        try
        {
            Text(faults, pointer, value.GetString()!);
        }
        catch (InvalidOperationException)
        {
            faults.Add(pointer, Problems.Malformed, $"{Names.Field(pointer)} holds half a character (a lone surrogate); it cannot be kept. Remove it.");
        }
    }

    private static void Number(Faults faults, string pointer, JsonElement value, Type type)
    {
        var fits = type == typeof(double) ? value.TryGetDouble(out var number) && double.IsFinite(number)
            : type == typeof(decimal) ? value.TryGetDecimal(out _)
            : type == typeof(int) && value.TryGetInt32(out _);
        if (!fits)
        {
            faults.Add(pointer, Problems.Malformed, $"{Names.Field(pointer)} {Shown(value)} cannot be kept: {(type == typeof(int) ? "a whole number" : "a finite number of ordinary size")} is needed.");
        }
    }

    private static bool Wanted(Faults faults, string pointer, JsonElement value, bool fits, string wanted)
    {
        if (!fits)
        {
            faults.Add(pointer, Problems.Malformed, $"{Names.Field(pointer)} must be {wanted}, not {Kind(value)}.");
        }

        return fits;
    }

    private static string Shown(JsonElement value)
    {
        var raw = value.GetRawText();
        return raw.Length <= 60 ? raw : raw[..57] + "...";
    }
}
