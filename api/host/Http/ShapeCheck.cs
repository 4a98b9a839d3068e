using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using FuelHistory.Contracts;
using FuelHistory.Host.Validation;

namespace FuelHistory.Host.Http;

/// <summary>Compares a JSON text with the record it is meant for and names every difference at once: members unknown, missing
/// or twice, null, wrong types, numbers as text or too large, date-times without offset, control characters.</summary>
internal static class ShapeCheck
{
    private static readonly JsonDocumentOptions Once = new() { AllowDuplicateProperties = false };

    public static IReadOnlyList<Fault> Of(ReadOnlyMemory<byte> body, Type type, JsonSerializerOptions options)
    {
        Faults faults = new();
        try
        {
            using var document = JsonDocument.Parse(body, Once);
            Walk(faults, "", document.RootElement, type, options);
        }
        catch (JsonException e)
        {
            var place = $"line {(e.LineNumber ?? 0) + 1}, byte {(e.BytePositionInLine ?? 0) + 1}";
            faults.Add("", Problems.Malformed, body.Length == 0 ? "The body is empty; send one JSON object."
                : e.Message.Contains("Duplicate", StringComparison.Ordinal) ? $"A member is given twice ({Quoted(e.Message)}); send it once."
                : $"The body is not JSON: the text breaks off or goes wrong at {place}.");
        }

        return faults.Found;
    }

    private static void Walk(Faults faults, string pointer, JsonElement value, Type type, JsonSerializerOptions options)
    {
        var bare = Nullable.GetUnderlyingType(type) ?? type;
        var info = options.GetTypeInfo(bare);
        switch (info.Kind)
        {
            case JsonTypeInfoKind.Object when Is(faults, pointer, value, JsonValueKind.Object, "an object { ... }"):
                Members(faults, pointer, value, info, options);
                break;
            case JsonTypeInfoKind.Enumerable when Is(faults, pointer, value, JsonValueKind.Array, "a list [ ... ]"):
                var place = 0;
                foreach (var item in value.EnumerateArray())
                {
                    Present(faults, $"{pointer}/{place++}", item, info.ElementType!, options);
                }

                break;
            case JsonTypeInfoKind.Dictionary when Is(faults, pointer, value, JsonValueKind.Object, "an object { ... }"):
                foreach (var member in value.EnumerateObject())
                {
                    ShapeOfValues.Text(faults, $"{pointer}/{Escape(member.Name)}", member.Name);
                    Present(faults, $"{pointer}/{Escape(member.Name)}", member.Value, info.ElementType!, options);
                }

                break;
            case JsonTypeInfoKind.None:
                ShapeOfValues.Check(faults, pointer, value, bare);
                break;
            default:
                break;
        }
    }

    private static void Members(Faults faults, string pointer, JsonElement value, JsonTypeInfo info, JsonSerializerOptions options)
    {
        foreach (var member in value.EnumerateObject())
        {
            var here = $"{pointer}/{Escape(member.Name)}";
            var property = info.Properties.FirstOrDefault(p => p.Name == member.Name);
            if (property is null)
            {
                var near = Names.Near(member.Name, info.Properties.Select(p => p.Name));
                faults.Add(here, Problems.Unknown, $"There is no member \"{Clean(member.Name)}\" here. {(near.Count > 0 ? $"Did you mean {string.Join(" or ", near)}?" : $"Known: {string.Join(", ", info.Properties.Select(p => p.Name))}.")}");
            }
            else if (member.Value.ValueKind != JsonValueKind.Null)
            {
                Walk(faults, here, member.Value, property.PropertyType, options);
            }
            else if (!MayBeNull(property))
            {
                faults.Add(here, Problems.Required, $"{Names.Field(here)} cannot be null; give a value{(property.IsRequired ? "" : " or leave the member out")}.");
            }
        }

        foreach (var missing in info.Properties.Where(p => p.IsRequired && !value.TryGetProperty(p.Name, out _)))
        {
            faults.Required($"{pointer}/{missing.Name}", $"{Names.Field($"{pointer}/{missing.Name}")} is missing.");
        }
    }

    private static void Present(Faults faults, string pointer, JsonElement value, Type type, JsonSerializerOptions options)
    {
        if (value.ValueKind == JsonValueKind.Null)
        {
            faults.Required(pointer, $"{Names.Field(pointer)} cannot be null; leave it out or give a value.");
            return;
        }

        Walk(faults, pointer, value, type, options);
    }

    private static bool Is(Faults faults, string pointer, JsonElement value, JsonValueKind kind, string wanted)
    {
        if (value.ValueKind == kind)
        {
            return true;
        }

        faults.Add(pointer, Problems.Malformed, $"{Names.Field(pointer)} must be {wanted}, not {ShapeOfValues.Kind(value)}.");
        return false;
    }

    private static bool MayBeNull(JsonPropertyInfo property) =>
        property.AssociatedParameter?.IsNullable ?? property.IsSetNullable;

    private static string Escape(string name) => name.Replace("~", "~0", StringComparison.Ordinal).Replace("/", "~1", StringComparison.Ordinal);

    private static string Clean(string name) => string.Concat(name.Where(c => !char.IsControl(c)).Take(60));

    private static string Quoted(string message) => message.Split('\'') is [_, var name, ..] ? Clean(name) : "see the body";
}
