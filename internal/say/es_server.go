package say

// serverSpanish is serverEnglish in the Spanish of the Americas.
func serverSpanish() map[string]string {
	return map[string]string{
		"server.description":    "Dibuje un estanque para nadar y vea al instante su agua, la bomba, la luz del año, un presupuesto aproximado y las notas de seguridad. Revisión de diseño gratuita de {0}.",
		"server.no_script":      "Esta página necesita script para responder a lo que usted cambia.",
		"server.back":           "Volver al estanque",
		"server.broken":         "Algo salió mal aquí. No es culpa suya. Intente otra vez en un minuto.",
		"server.busy":           "El servidor está ocupado. No se perdió nada. Intente otra vez en un minuto.",
		"server.stopping":       "El servidor está por reiniciarse. Intente otra vez en un minuto.",
		"server.too_many":       "Fue mucho en poco tiempo. Espere un minuto e intente otra vez.",
		"server.too_big":        "Es más de lo que se puede enviar de una vez. Acorte la nota o use menos puntos en el contorno.",
		"server.not_found":      "No hay ninguna página en esta dirección.",
		"server.method":         "Esta dirección no se puede usar de esta manera.",
		"server.not_json":       "Envíe esto como JSON, con el tipo de contenido application/json.",
		"server.not_form":       "No se pudo leer este formulario. Regrese y envíelo otra vez.",
		"server.faults":         "Algunas respuestas necesitan otra mirada. Cada una está en la lista.",
		"server.key":            "Envíe un encabezado Idempotency-Key: de 16 a 128 caracteres entre comillas dobles.",
		"server.key_reused":     "Esta clave ya se usó para otra consulta. Envíe la consulta cambiada con una clave nueva.",
		"server.sealed":         "Esto no se pudo abrir. Se selló para otro servidor o cambió en el camino.",
		"server.in_flight":      "La misma consulta se está guardando ahora. Pregunte otra vez en un segundo.",
		"send.too_many":         "Todavía no se ha enviado",
		"send.too_many_why":     "Fue mucho en poco tiempo. Todo lo que escribió sigue aquí. Espere un minuto e intente otra vez.",
		"send.already_sent":     "Esto ya se envió una vez",
		"send.already_sent_why": "Lo que envió primero está guardado. Pulse enviar otra vez para mandarlo de nuevo con los cambios.",
		"send.design":           "El dibujo tiene algo que corregir",
		"send.design_why":       "Una de sus medidas no se puede usar. Vaya al dibujo, corrija la respuesta marcada y envíe.",
		"server.other_site":     "Esto vino de otro sitio y no se aceptó.",
	}
}
